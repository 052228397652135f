package shell

import (
	"math"
	"testing"
)

// TestBounds: each number of a sheet is taken up to its bound and refused just past
// it.
func TestBounds(t *testing.T) {
	one := func(c Contact) []Contact { c.Stiffness, c.Skin = 1, 1; return []Contact{c} }
	z := [3]float64{0, 0, 1}
	for name, q := range map[string]struct {
		ok bool
		do func(s *Sheet)
	}{
		"as it is":               {true, func(s *Sheet) {}},
		"two lines":              {true, func(s *Sheet) { *s = Sheet{U: s.U[:2], V: s.V[:2], StretchU: 1, StretchV: 1} }},
		"lines that repeat":      {false, func(s *Sheet) { s.U[2] = s.U[1] }},
		"an infinite line":       {false, func(s *Sheet) { s.V[3] = math.Inf(1) }},
		"no rigidity":            {true, func(s *Sheet) { s.BendU, s.BendV, s.Shear, s.Mass = 0, 0, 0, 0 }},
		"no stretch along u":     {false, func(s *Sheet) { s.StretchU = 0 }},
		"shear below 0":          {false, func(s *Sheet) { s.Shear = -1 }},
		"infinite rigidity":      {false, func(s *Sheet) { s.BendV = math.Inf(1) }},
		"twist":                  {false, func(s *Sheet) { s.Twist = math.NaN() }},
		"gravity x":              {false, func(s *Sheet) { s.Gravity[0] = math.NaN() }},
		"gravity z":              {false, func(s *Sheet) { s.Gravity[2] = math.NaN() }},
		"the last node held":     {true, func(s *Sheet) { s.Held = []Hold{{I: 4, J: 3, Axes: All}} }},
		"held past u":            {false, func(s *Sheet) { s.Held = []Hold{{I: 5, Axes: All}} }},
		"held past v":            {false, func(s *Sheet) { s.Held = []Hold{{J: 4, Axes: All}} }},
		"held before u":          {false, func(s *Sheet) { s.Held = []Hold{{I: -1}} }},
		"held before v":          {false, func(s *Sheet) { s.Held = []Hold{{J: -1}} }},
		"a fourth axis":          {false, func(s *Sheet) { s.Held = []Hold{{Axes: All + 1}} }},
		"held in a long normal":  {false, func(s *Sheet) { s.Held = []Hold{{In: [3]float64{1.001, 0, 0}}} }},
		"whole folds":            {true, func(s *Sheet) { s.Fold[0], s.Fold[1] = 0, 1 }},
		"a fold below 0":         {false, func(s *Sheet) { s.Fold[0] = -0.01 }},
		"a fold above 1":         {false, func(s *Sheet) { s.Fold[0] = 1.01 }},
		"too many folds":         {false, func(s *Sheet) { s.Fold = append(s.Fold, 1) }},
		"a crease":               {true, func(s *Sheet) { s.Frozen.U[0] = math.NaN() }},
		"infinite κ₀":            {false, func(s *Sheet) { s.Frozen.UV[0] = math.Inf(-1) }},
		"frozen below 0":         {false, func(s *Sheet) { s.Frozen.BendU = -1 }},
		"frozen along v below 0": {false, func(s *Sheet) { s.Frozen.BendV = -1 }},
		"frozen twist":           {false, func(s *Sheet) { s.Frozen.Twist = math.Inf(1) }},
		"frozen U":               {false, func(s *Sheet) { s.Frozen.U = s.Frozen.U[1:] }},
		"frozen V":               {false, func(s *Sheet) { s.Frozen.V = s.Frozen.V[1:] }},
		"frozen UV":              {false, func(s *Sheet) { s.Frozen.UV = s.Frozen.UV[1:] }},

		"a plane":            {true, func(s *Sheet) { s.Contacts = one(Plane(z, 0)) }},
		"a steep plane":      {false, func(s *Sheet) { s.Contacts = one(Plane([3]float64{0, 0, 1.001}, 0)) }},
		"nowhere":            {false, func(s *Sheet) { s.Contacts = one(Plane(z, math.NaN())) }},
		"no stiffness":       {false, func(s *Sheet) { s.Contacts = one(Plane(z, 0)); s.Contacts[0].Stiffness = 0 }},
		"infinitely stiff":   {false, func(s *Sheet) { s.Contacts = one(Plane(z, 0)); s.Contacts[0].Stiffness = math.Inf(1) }},
		"no skin":            {false, func(s *Sheet) { s.Contacts = one(Plane(z, 0)); s.Contacts[0].Skin = 0 }},
		"infinite skin":      {false, func(s *Sheet) { s.Contacts = one(Plane(z, 0)); s.Contacts[0].Skin = math.Inf(1) }},
		"a tie without skin": {true, func(s *Sheet) { s.Contacts = one(Plane(z, 0)); s.Contacts[0].Skin, s.Contacts[0].Tie = 0, true }},
		"a tie between":      {false, func(s *Sheet) { s.Contacts = one(Contact{Normal: z, Tie: true, Between: true}) }},
		"weights of nodes":   {true, func(s *Sheet) { s.Contacts = one(Contact{Normal: z, Weight: make([]float64, 20)}) }},
		"too few weights":    {false, func(s *Sheet) { s.Contacts = one(Contact{Normal: z, Weight: make([]float64, 19)}) }},
		"weights of spots": {true, func(s *Sheet) {
			s.Contacts = one(Contact{Normal: z, Between: true, Weight: make([]float64, len(s.Spots))})
		}},
		"weights of no spots":  {false, func(s *Sheet) { s.Contacts = one(Contact{Normal: z, Between: true, Weight: make([]float64, 20)}) }},
		"a weight below 0":     {false, func(s *Sheet) { s.Contacts = one(Contact{Normal: z, Weight: append(make([]float64, 19), -1)}) }},
		"too many back":        {false, func(s *Sheet) { s.Contacts = one(Contact{Normal: z, Back: make([]float64, 21)}) }},
		"back":                 {false, func(s *Sheet) { s.Contacts = one(Contact{Normal: z, Back: append(make([]float64, 19), math.NaN())}) }},
		"spots of larger grid": {false, func(s *Sheet) { s.Contacts, s.Spots = nil, Spots([]float64{0, 1, 2, 3, 4, 5}, []float64{0, 1, 2, 3}) }},

		"an unknown edge":            {false, func(s *Sheet) { s.VEnd.Kind = Clamped + 1 }},
		"a long mirror":              {false, func(s *Sheet) { s.UStart.Normal[1] = 1.001 }},
		"a mirror nowhere":           {false, func(s *Sheet) { s.UStart.Offset = math.NaN() }},
		"mirrors side by side":       {false, func(s *Sheet) { s.VStart = s.UStart }},
		"mirrors side by side, ends": {false, func(s *Sheet) { s.VEnd, s.UStart = s.UStart, Edge{} }},
		"a tangent a node":           {true, func(s *Sheet) { s.VStart.Tangent = [][3]float64{z, z, z, z, z} }},
		"two tangents":               {false, func(s *Sheet) { s.VStart.Tangent = [][3]float64{z, z} }},
		"a tangent a node of u":      {true, func(s *Sheet) { s.UStart = Edge{Kind: Clamped, Tangent: [][3]float64{z, z, z, z}} }},
		"a short tangent":            {false, func(s *Sheet) { s.VStart.Tangent = [][3]float64{{0, 0, 0.49}} }},
		"a long tangent":             {false, func(s *Sheet) { s.VStart.Tangent = [][3]float64{{0, 0, 2.01}} }},
		"tangents of length":         {true, func(s *Sheet) { s.VStart.Tangent = [][3]float64{{0, 0, 0.51}} }},

		"a pair":               {true, func(s *Sheet) { s.Pairs = []Pair{pairOf(0, 19)} }},
		"a node past the last": {false, func(s *Sheet) { s.Pairs = []Pair{pairOf(0, 20)} }},
		"a node before 0":      {false, func(s *Sheet) { s.Pairs = []Pair{pairOf(-1, 3)} }},
		"a node twice":         {false, func(s *Sheet) { s.Pairs = []Pair{pairOf(3, 3)} }},
		"a pair without skin":  {false, func(s *Sheet) { s.Pairs = []Pair{pairOf(0, 1)}; s.Pairs[0].Skin = 0 }},
		"a pair, weight":       {false, func(s *Sheet) { s.Pairs = []Pair{pairOf(0, 1)}; s.Pairs[0].Weight = -1 }},
		"a pair of no weight":  {true, func(s *Sheet) { s.Pairs = []Pair{pairOf(0, 1)}; s.Pairs[0].Weight = 0 }},
		"a pair, stiffness":    {false, func(s *Sheet) { s.Pairs = []Pair{pairOf(0, 1)}; s.Pairs[0].Stiffness = 0 }},
		"a pair, clear":        {false, func(s *Sheet) { s.Pairs = []Pair{pairOf(0, 1)}; s.Pairs[0].Clear = math.NaN() }},

		"near the last corner": {true, func(s *Sheet) { s.Near = []Near{nearOf(19, 59)} }},
		"past the corners":     {false, func(s *Sheet) { s.Near = []Near{nearOf(0, 60)} }},
		"before the corners":   {false, func(s *Sheet) { s.Near = []Near{nearOf(0, -1)} }},
		"no image after":       {true, func(s *Sheet) { s.UEnd = Edge{}; s.Near = []Near{nearOf(0, 39)} }},
		"past the image":       {false, func(s *Sheet) { s.UEnd = Edge{}; s.Near = []Near{nearOf(0, 40)} }},
		"no image":             {false, func(s *Sheet) { s.UStart, s.UEnd = Edge{}, Edge{}; s.Near = []Near{nearOf(0, 20)} }},
		"near, past the nodes": {false, func(s *Sheet) { s.Near = []Near{nearOf(20, 1)} }},
		"near, before 0":       {false, func(s *Sheet) { s.Near = []Near{nearOf(-1, 1)} }},
		"near, clear below 0":  {false, func(s *Sheet) { s.Near = []Near{nearOf(0, 1)}; s.Near[0].Clear = -0.1 }},

		"graded":             {true, func(s *Sheet) { s.GradeU.Mass, s.GradeV.Bend = make([]float64, 5), make([]float64, 4) }},
		"graded by v's":      {false, func(s *Sheet) { s.GradeU.Mass = make([]float64, 4) }},
		"graded by u's":      {false, func(s *Sheet) { s.GradeV.Bend = make([]float64, 5) }},
		"graded, no stretch": {false, func(s *Sheet) { s.GradeV.Stretch = []float64{1, 1, 1, 0} }},
		"graded below 0":     {false, func(s *Sheet) { s.GradeV.Mass = []float64{1, 1, 1, -1} }},
	} {
		sh, _ := everything(1)
		if q.do(sh); (sh.Validate() == nil) != q.ok {
			t.Errorf("%s: %v", name, sh.Validate())
		}
	}
	for name, q := range map[string]struct {
		ok bool
		do func(s *Sheet)
	}{
		"as it is":   {true, func(s *Sheet) {}},
		"no step":    {false, func(s *Sheet) { s.Round.Step = 0 }},
		"shifted":    {false, func(s *Sheet) { s.Round.Shift[1] = math.Inf(1) }},
		"stretched":  {false, func(s *Sheet) { s.Round.Turn[0] *= 1.001 }},
		"sheared":    {false, func(s *Sheet) { s.Round.Turn[1] += 0.01 }},
		"a mirror":   {false, func(s *Sheet) { s.VEnd = Edge{Kind: Mirror, Normal: z} }},
		"a mirror 2": {false, func(s *Sheet) { s.VStart = Edge{Kind: Mirror, Normal: z} }},
		"an edge":    {false, func(s *Sheet) { s.UEnd = Edge{Kind: Mirror, Normal: z} }},
		"an edge 2":  {false, func(s *Sheet) { s.UStart = Edge{Kind: Clamped, Tangent: [][3]float64{z}} }},
		"two lines":  {false, func(s *Sheet) { *s = Sheet{U: s.U[:2], V: s.V[:2], StretchU: 1, StretchV: 1, Round: s.Round} }},
		"three":      {true, func(s *Sheet) { *s = Sheet{U: s.U[:3], V: s.V[:2], StretchU: 1, StretchV: 1, Round: s.Round} }},
	} {
		sh, _ := ring(1)
		if q.do(sh); (sh.Validate() == nil) != q.ok {
			t.Errorf("round, %s: %v", name, sh.Validate())
		}
	}
}

func pairOf(a, b int) Pair {
	return Pair{N: [4]int{a, b, a, a}, D: [4][3]float64{{1}, {-1}}, Stiffness: 1, Skin: 1, Weight: 1}
}

func nearOf(node, corner int) Near {
	return Near{Node: node, Patch: [][3]int32{{int32(corner), 1, 2}, {3, int32(corner), 5}, {6, 7, int32(corner)}}, Stiffness: 1, Skin: 1}
}

// TestPress: the law of contact, by its values where it is known. With s = w − gap it
// presses k s²/2w up to s = 2w and in a straight line of slope 2k beyond; a tie pulls
// both ways. Its energy is the work done.
func TestPress(t *testing.T) {
	const k, w = 3.0, 0.4
	c, tie := Contact{Stiffness: k, Skin: w}, Contact{Stiffness: k, Tie: true}
	for _, q := range []struct{ gap, press float64 }{{2 * w, 0}, {w, 0}, {w / 2, k * w / 8}, {0, k * w / 2}, {-w, 2 * k * w}, {-2 * w, 4 * k * w}, {-4 * w, 8 * k * w}} {
		if got := c.Press(q.gap); math.Abs(got-q.press) > 1e-12 {
			t.Errorf("at a gap of %g it presses with %g, want %g", q.gap, got, q.press)
		}
	}
	if math.Abs(tie.Press(0.5)+1.5) > 1e-12 || math.Abs(tie.Press(-0.5)-1.5) > 1e-12 {
		t.Error("a tie's pull")
	}
	for _, c := range []Contact{c, tie} {
		work, last := 0.0, 1.0
		if c.Tie {
			last = 0
		}
		for n, gap := range []float64{0.3, 0, -0.39, -0.41, -2} {
			const steps = 20000
			h := (last - gap) / steps
			for i := range steps {
				work += h * c.Press(last-(float64(i)+0.5)*h)
			}
			if last = gap; c.Tie && n == 0 {
				work = 0.5 * k * gap * gap
			}
			phi, d1, d2 := c.force(gap)
			_, less, _ := c.force(gap - 1e-6)
			_, more, _ := c.force(gap + 1e-6)
			if math.Abs(phi-work) > 1e-6 || -d1 != c.Press(gap) || math.Abs((more-less)/2e-6-d2) > 1e-6*k {
				t.Errorf("tie %v, gap %g: energy %g, work %g, second derivative %g", c.Tie, gap, phi, work, d2)
			}
		}
	}
}
