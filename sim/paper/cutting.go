package paper

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim/paper/sheet"
)

// cutting is the sheet for the shop and the cutting table: what to buy, where each
// piece lies on the cloth, its size before and after the first wash.
func (j *job) cutting() ([]*sheet.Page, error) {
	f := j.cut(0)
	// A few lines on a sheet of their own: a smaller layout makes room for them.
	if n := len(f.Pages); n > 1 {
		if over := f.Y - sheet.BodyTop_mm + 2; over < 60 && j.layoutHigh()-over > 60 {
			if again := j.cut(over); len(again.Pages) < n {
				return again.Pages, nil
			}
		}
	}
	return f.Pages, nil
}

// cut lays the sheet out, with a layout that is less_mm smaller than the sheet is
// wide.
func (j *job) cut(less_mm float64) *sheet.Flow {
	f := sheet.NewFlow("Cloth: buy and cut")
	f.Page.Holds = "layout on the bolt, not full size"
	cut := j.Pattern.Cut
	lay := cut.Layout
	f.Head("Buy", 20)
	f.Para(sheet.Strong(j.bought(cut.Buy)), sheet.Plain(fmt.Sprintf(" of %s, %s wide, about %s g/m². Needed exactly: %s; bought as it is sold, rounded up.",
		j.s.Cloth.Name, j.len(lay.Bolt_mm), trim(j.s.Cloth.Mass, 0), j.len(cut.Buy.Need_mm))))
	if j.Pattern.Made > 1 {
		f.Para(sheet.Strong("For both cuffs, "), sheet.Plain("left and right: layout, thread and closures of this sheet are of the two together; swatches are cut once."))
	}
	f.Para(sheet.Plain("Thread: " + j.thread() + ". " + j.notions()))
	if j.Pattern.Strip.Have_mm > 0 {
		each := map[bool]string{true: " for each"}[j.Pattern.Made > 1]
		lacks := "Only what it lacks is on the layout."
		if j.toCut() == 0 {
			lacks = "It is long enough: no strip is on the layout."
		}
		f.Para(sheet.Plain(fmt.Sprintf("At hand already: a strip of %s%s. %s", j.len(j.Pattern.Strip.Have_mm), each, lacks)))
	}
	if j.Pattern.Band.AtHand {
		f.Para(sheet.Plain(map[bool]string{true: "The bands are made already and are", false: "The band is made already and is"}[j.Pattern.Made > 1] + " not on the layout."))
	}
	if len(lay.Left) > 0 {
		names := []string{}
		for _, s := range lay.Left {
			names = append(names, fmt.Sprintf("%s, %s by %s", s.Name, j.len(s.Long_mm), j.len(s.Wide_mm)))
		}
		f.Para(sheet.Strong("From other cloth: "), sheet.Plain(list(names)+". This cloth is too narrow for "+map[bool]string{true: "it", false: "them"}[len(names) == 1]+"."))
	}
	done := map[string]bool{}
	j.warnAll(f, done, StepCloth)

	f.Head("Wash first, then cut", 30)
	f.Para(sheet.Plain("Wash, dry and iron the cloth as the finished "+j.thing()+" will be washed, before anything is cut. The layout is drawn and measured on the cloth "),
		sheet.Strong("as bought"), sheet.Plain(fmt.Sprintf("; the wash is taken to shorten it by %s %% along the warp and %s %% along the weft. After the wash cut the washed sizes of the table, whatever your cloth has done: the finished size counts. Draw out a thread for each cut and cut along the gap.",
			trim(100*lay.ShrinkWarp, 1), trim(100*lay.ShrinkWeft, 1))))

	// The layout stands on a page that holds it and its words.
	high := j.layoutHigh() - less_mm
	high = min(max(high, 40), sheet.BodyBottom_mm-sheet.BodyTop_mm-24)
	f.Head("Layout", min(high, 100)+14)
	high = min(high, sheet.BodyBottom_mm-f.Y-13)
	j.drawLayout(f, high)

	f.Head("Pieces", 24)
	f.Table(sheet.Body, []sheet.Col{sheet.Words("piece", 30), sheet.Numbers("how many", 12), sheet.Numbers("cut, washed", 28), sheet.Numbers("on the cloth as bought", 30), sheet.Words("thread along it", 16)}, j.pieces())
	f.Small(sheet.Plain(j.sums()))
	j.ways(f)
	return f
}

// bought is what is asked for in the shop.
func (j *job) bought(b pattern.Buy) string {
	if j.Units == scheme.Inches {
		return pattern.Yards(b.Eighths) + " (" + trim(b.Metric_mm/1000, 2) + " m)"
	}
	return trim(b.Metric_mm/1000, 2) + " m (" + pattern.Yards(b.Eighths) + ")"
}

// thread is the thread to have, in whole 10 m or yards, with something over.
func (j *job) thread() string {
	m := math.Ceil(j.work.Thread_mm/1000/10) * 10
	if j.Units == scheme.Inches {
		return fmt.Sprintf("%s yd or more of linen or cotton thread, waxed (reckoned: %s yd)", trim(math.Ceil(m/0.9144/10)*10, 0), trim(j.work.Thread_mm/914.4, 0))
	}
	return fmt.Sprintf("%s m or more of linen or cotton thread, waxed (reckoned: %s m)", trim(m, 0), trim(j.work.Thread_mm/1000, 0))
}

func (j *job) notions() string {
	pairs := 0
	for _, c := range j.Pattern.Band.Closures {
		pairs = max(pairs, c.Pair)
	}
	pairs *= j.Pattern.Made
	what := map[scheme.Closure]string{
		scheme.Hooks: plural(pairs, "hook and eye", "hooks and eyes"), scheme.Buttons: plural(pairs, "button, flat", "buttons, flat"),
		scheme.Ties: plural(pairs, "pair of ties", "pairs of ties"),
	}[j.s.Band.Closure]
	return "To close " + map[bool]string{true: "the bands: ", false: "the band: "}[j.Pattern.Made > 1] + what + "."
}

const layoutLabel = 2.2

// layoutHigh is how high the layout would be drawn at the width of the sheet.
func (j *job) layoutHigh() float64 {
	lay := j.Pattern.Cut.Layout
	return j.layoutScale() * lay.Length_mm
}

func (j *job) layoutScale() float64 { return (sheet.Live_mm - 34) / j.Pattern.Cut.Layout.Bolt_mm }

// drawLayout draws the whole cloth as bought, `high` mm high at most.
func (j *job) drawLayout(f *sheet.Flow, high float64) {
	lay := j.Pattern.Cut.Layout
	k := min(j.layoutScale(), high/lay.Length_mm)
	p := f.Page
	wide, long := k*lay.Bolt_mm, k*lay.Length_mm
	x0, y0 := (sheet.Live_mm-wide)/2, f.Y+5
	y1 := y0 + long
	at := func(x, y float64) draw.Point { return sheet.Pt(x0+k*x, y1-k*y) } // Y runs up from the shop's cut
	p.Box(sheet.Medium, x0, y0, x0+wide, y1)
	// Selvedges: a dotted line each.
	for _, x := range []float64{lay.Selvedge_mm, lay.Bolt_mm - lay.Selvedge_mm} {
		if lay.Selvedge_mm > 0 {
			p.Line(sheet.Fine, []float64{0.2, 0.8}, at(x, 0), at(x, lay.Length_mm))
		}
	}
	for _, q := range lay.Placed {
		a, b := at(q.X_mm, q.Y_mm), at(q.X_mm+q.Wide_mm, q.Y_mm+q.Long_mm)
		fill := sheet.White
		if q.Kind != pattern.KindStrip {
			fill = sheet.Pale
		}
		p.Filled(sheet.Medium, fill, a.X, b.Y, b.X, a.Y)
		words := q.Name
		if w, h := b.X-a.X, a.Y-b.Y; h >= layoutLabel {
			if draw.TextWidth(words, layoutLabel, draw.Upright) < w-1 {
				p.Text((a.X+b.X)/2, (a.Y+b.Y)/2+layoutLabel*0.35, layoutLabel, draw.Upright, 0.5, words)
			} else if n := lastWord(q.Name); draw.TextWidth(n, layoutLabel, draw.Upright) < w {
				p.Text((a.X+b.X)/2, (a.Y+b.Y)/2+layoutLabel*0.35, layoutLabel, draw.Upright, 0.5, n)
			}
		}
	}
	p.Measure(sheet.Pt(x0, y0-2.2), sheet.Pt(x0+wide, y0-2.2), j.len(lay.Bolt_mm))
	p.Measure(sheet.Pt(x0+wide+8, y1), sheet.Pt(x0+wide+8, y0), j.len(lay.Length_mm))
	// The warp's arrow.
	ax := x0 - 5
	mid := (y0 + y1) / 2
	half := min(long/2, 14)
	p.Line(sheet.Medium, nil, sheet.Pt(ax, mid+half), sheet.Pt(ax, mid-half))
	p.Lines(sheet.Medium, nil, []draw.Point{sheet.Pt(ax-1.2, mid-half+2), sheet.Pt(ax, mid-half), sheet.Pt(ax+1.2, mid-half+2)},
		[]draw.Point{sheet.Pt(ax-1.2, mid+half-2), sheet.Pt(ax, mid+half), sheet.Pt(ax+1.2, mid+half-2)})
	p.Text(ax-1.4, mid+1, sheet.Small, draw.Italic, 1, "warp")
	f.Y = y1 + 1.5
	f.Small(sheet.Slant(fmt.Sprintf("1 : %s. The shop's cut is below; dotted: selvedges; grey: band and swatches; %s at either end to straighten the cut. Pieces cover %s %% of the cloth.",
		trim(1/k, 1), j.len(lay.Square_mm), trim(100*lay.Used, 0))))
}

func lastWord(s string) string {
	for i := len(s) - 1; i >= 0; i-- {
		if s[i] == ' ' {
			return s[i+1:]
		}
	}
	return s
}

// pieces groups the layout's pieces of one size into rows of the table.
func (j *job) pieces() [][]string {
	lay := j.Pattern.Cut.Layout
	washed := lay.Washed()
	type key struct {
		kind             pattern.Kind
		name             string
		long, wide, warp int
	}
	groups := map[key][]int{}
	var keys []key
	for i, q := range washed.Placed {
		k := key{kind: q.Kind, long: int(math.Round(10 * q.Long_mm)), wide: int(math.Round(10 * q.Wide_mm))}
		if q.Along == scheme.Warp {
			k.warp = 1
		}
		if q.Kind != pattern.KindStrip {
			k.name = baseName(q.Name)
			if q.Kind == pattern.KindBand {
				k.name = "band"
			}
		}
		if groups[k] == nil {
			keys = append(keys, k)
		}
		groups[k] = append(groups[k], i)
	}
	rank := map[pattern.Kind]int{pattern.KindStrip: 0, pattern.KindBand: 1, pattern.KindSwatch: 2}
	sort.SliceStable(keys, func(a, b int) bool { return rank[keys[a].kind] < rank[keys[b].kind] })
	size := func(q pattern.Placed) string {
		long, wide := q.Long_mm, q.Wide_mm
		if q.Along == scheme.Weft {
			long, wide = wide, long
		}
		switch {
		case q.Kind == pattern.KindSwatch && q.Name == pattern.Square:
			return trim(long, 0) + " × " + trim(wide, 0) + " mm" // weighed: in mm whatever the units
		case q.Kind == pattern.KindSwatch:
			return j.swatchLen(long) + " × " + j.swatchLen(wide)
		}
		return j.len(long) + " × " + j.len(wide)
	}
	var rows [][]string
	for _, k := range keys {
		first := groups[k][0]
		name := k.name
		if k.kind == pattern.KindStrip {
			name = washed.Placed[first].Name
			if n := len(groups[k]); n > 1 {
				name = "strips " + numbers(washed.Placed, groups[k])
			}
			if j.Pattern.Made > 1 {
				name = "strip " + numbers(washed.Placed, groups[k]) + " of each"
			}
		}
		rows = append(rows, []string{name, strconv.Itoa(len(groups[k])), size(washed.Placed[first]), size(lay.Placed[first]), string(washed.Placed[first].Along)})
	}
	return rows
}

// baseName drops a number from the end: "swatch, warp 2" is "swatch, warp".
func baseName(s string) string {
	n := lastWord(s)
	if _, err := strconv.Atoi(n); err == nil && len(n)+1 < len(s) {
		return s[:len(s)-len(n)-1]
	}
	return s
}

// numbers writes the numbers of strips: "1 to 3, 5".
func numbers(all []pattern.Placed, which []int) string {
	var ns []int
	for _, i := range which {
		if n, err := strconv.Atoi(lastWord(all[i].Name)); err == nil {
			ns = append(ns, n)
		}
	}
	sort.Ints(ns)
	ns = slices.Compact(ns) // of a pair
	s := ""
	for i := 0; i < len(ns); {
		k := i
		for k+1 < len(ns) && ns[k+1] == ns[k]+1 {
			k++
		}
		if s != "" {
			s += ", "
		}
		s += strconv.Itoa(ns[i])
		if k > i {
			s += " to " + strconv.Itoa(ns[k])
		}
		i = k + 1
	}
	return s
}

// sums shows that the pieces make the strip: the two numbers that must agree.
func (j *job) sums() string {
	st, cut := j.Pattern.Strip, j.Pattern.Cut
	var joins float64
	for _, x := range cut.Joins {
		joins += x.Consumes_mm
	}
	sum := func(parts ...any) string { // of those that are there: name, mm, name, mm …
		var out []string
		for i := 0; i < len(parts); i += 2 {
			if mm := parts[i+1].(float64); mm > 0 {
				out = append(out, parts[i].(string)+" "+j.len(mm))
			}
		}
		return strings.Join(out, " + ")
	}
	words := "The strip's width, " + j.len(st.Width_mm) + " = " + sum("depth", st.Depth_mm, "hem", st.Hem_mm, "turned in at the stitch line", st.Takeup_mm) +
		". Its length, " + j.len(st.Length_mm) + " = " + sum("marks", st.Marked_mm, "two end hems", 2*st.Hem_mm, "spare", st.Spare_mm)
	if n := len(cut.Joins); n > 0 {
		words += "; " + plural(n, "join", "joins") + " in " + plural(len(cut.Pieces), "piece", "pieces")
		if joins > 0 {
			words += " take " + j.len(joins) + " of cloth more"
		}
	}
	if want := float64(2*j.s.Strip.Spare) * j.Ruff.Plan.Panel_mm; st.Have_mm == 0 && st.Spare_mm < want-0.5 {
		words += ". The whole spare of " + plural(j.s.Strip.Spare, "set", "sets") + " would take a piece of its own: what the last piece has room for is left"
	}
	return words + "."
}

// ways names the other ways of cutting that take the least cloth, where there are
// any.
func (j *job) ways(f *sheet.Flow) {
	all := slices.Clone(j.Pattern.Ways)
	slices.SortStableFunc(all, func(a, b pattern.Way) int { return cmp.Compare(a.Buy.Need_mm, b.Buy.Need_mm) })
	var said []string
	for _, w := range all {
		if w.Along == j.Pattern.Cut.Along && w.Side == j.Pattern.Cut.Side {
			continue
		}
		words := "along the " + string(w.Along)
		if w.Along == scheme.Warp {
			words += ", " + strconv.Itoa(w.Side) + " side by side"
		}
		words += ": " + j.bought(w.Buy) + ", " + plural(w.Joins, "join", "joins")
		if w.Shown > 0 {
			words += " of which " + strconv.Itoa(w.Shown) + " would show"
		}
		if said = append(said, words); len(said) == 4 {
			break
		}
	}
	if len(said) > 0 {
		f.Small(sheet.Strong("Other ways to cut the strip: "), sheet.Plain(strings.Join(said, "; ")+"."))
	}
}
