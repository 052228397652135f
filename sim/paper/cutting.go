package paper

import (
	"cmp"
	"math"
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
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
	f := j.flow(word.Say("Cloth: buy and cut"), word.Say("layout on the bolt, not full size"))
	cut := j.Pattern.Cut
	lay := cut.Layout
	f.Head(word.Say("Buy"), 20)
	f.Para(word.Say("**%s** of %s, %s wide, about %s g/m². Needed exactly: %s; bought as it is sold, rounded up.", j.bought(cut.Buy), word.Say(j.s.Cloth.Name), j.len(lay.Bolt_mm), trim(j.s.Cloth.Mass, 0), j.len(cut.Buy.Need_mm)))
	if j.Pattern.Made > 1 {
		f.Para(word.Say("**For both cuffs,** left and right: layout, thread and closures of this sheet are of the two together; swatches are cut once."))
	}
	f.Para(word.Say("Thread: %s. %s", j.thread(), j.notions()))
	if j.Pattern.Strip.Have_mm > 0 {
		lacks := when(j.Pattern.Cut.ToCut() == 0, word.Say("It is long enough: no strip is on the layout."), word.Say("Only what it lacks is on the layout."))
		have := when(j.Pattern.Made > 1, word.Say("At hand already: a strip of %s for each.", j.len(j.Pattern.Strip.Have_mm)), word.Say("At hand already: a strip of %s.", j.len(j.Pattern.Strip.Have_mm)))
		f.Para(word.Join(" ", have, lacks))
	}
	if j.Pattern.Band.AtHand {
		f.Para(word.Count(j.Pattern.Made, "The band is made already and is not on the layout.", "The bands are made already and are not on the layout."))
	}
	if len(lay.Left) > 0 {
		names := []word.Text{}
		for _, s := range lay.Left {
			names = append(names, word.Say("%s, %s by %s", s.Name(), j.len(s.Long_mm), j.len(s.Wide_mm)))
		}
		f.Para(word.Say("**From other cloth:** %s", word.Count(len(names), "%s. This cloth is too narrow for it.", "%s. This cloth is too narrow for them.", list(names))))
	}
	done := map[string]bool{}
	j.warnAll(f, done, StepCloth)

	f.Head(word.Say("Wash first, then cut"), 30)
	f.Para(word.Say("Wash, dry and iron the cloth as the finished %s will be washed, before anything is cut. The layout is drawn and measured on the cloth **as bought**. The wash is taken to shorten it by %s %% along the warp and %s %% along the weft. After the wash cut the washed sizes of the table, whatever your cloth has done: the finished size counts. Draw out a thread for each cut and cut along the gap.", j.thing(), trim(100*lay.ShrinkWarp, 1), trim(100*lay.ShrinkWeft, 1)))

	// The layout stands on a page that holds it and its words.
	high := j.layoutHigh() - less_mm
	high = min(max(high, 40), sheet.BodyBottom_mm-sheet.BodyTop_mm-24)
	f.Head(word.Say("Layout"), min(high, 100)+14)
	high = min(high, sheet.BodyBottom_mm-f.Y-13)
	j.drawLayout(f, high)

	f.Head(word.Say("Pieces"), 24)
	f.Table(sheet.Body, []sheet.Col{sheet.Words(word.Say("piece"), 30), sheet.Numbers(word.Say("how many"), 12), sheet.Numbers(word.Say("cut, washed"), 28), sheet.Numbers(word.Say("on the cloth as bought"), 30), sheet.Words(word.Say("thread along it"), 16)}, j.pieces())
	f.Small(j.sums())
	j.ways(f)
	return f
}

func (j *job) bought(b pattern.Buy) word.Text {
	return when(j.Units == scheme.Inches, word.Say("%s (%s m)", pattern.Yards(b.Eighths), trim(b.Metric_mm/1000, 2)), word.Say("%s m (%s)", trim(b.Metric_mm/1000, 2), pattern.Yards(b.Eighths)))
}

// thread is the thread to have, in whole 10 m or yards, with something over.
func (j *job) thread() word.Text {
	m := math.Ceil(j.work.Thread_mm/1000/10) * 10
	return when(j.Units == scheme.Inches,
		word.Say("%s yd or more of linen or cotton thread, waxed (reckoned: %s yd)", trim(math.Ceil(m/0.9144/10)*10, 0), trim(j.work.Thread_mm/914.4, 0)),
		word.Say("%s m or more of linen or cotton thread, waxed (reckoned: %s m)", trim(m, 0), trim(j.work.Thread_mm/1000, 0)))
}

func (j *job) notions() word.Text {
	pairs := 0
	for _, c := range j.Pattern.Band.Closures {
		pairs = max(pairs, c.Pair)
	}
	pairs *= j.Pattern.Made
	what := map[scheme.Closure]word.Text{
		scheme.Hooks: word.Count(pairs, "%s hook and eye", "%s hooks and eyes", thousands(pairs)), scheme.Buttons: word.Count(pairs, "%s button, flat", "%s buttons, flat", thousands(pairs)),
		scheme.Ties: word.Count(pairs, "%s pair of ties", "%s pairs of ties", thousands(pairs)),
	}[j.s.Band.Closure]
	return word.Count(j.Pattern.Made, "To close the band: %s.", "To close the bands: %s.", what)
}

const layoutLabel = 2.2

// layoutHigh is how high the layout would be drawn at the width of the sheet.
func (j *job) layoutHigh() float64 { return j.layoutScale() * j.Pattern.Cut.Layout.Length_mm }

func (j *job) layoutScale() float64 { return (sheet.Live_mm - 34) / j.Pattern.Cut.Layout.Bolt_mm }

// drawLayout draws the whole cloth as bought, `high` mm high at most.
func (j *job) drawLayout(f *sheet.Flow, high float64) {
	lay := j.Pattern.Cut.Layout
	k := min(j.layoutScale(), high/lay.Length_mm)
	p := f.Page
	wide, long := k*lay.Bolt_mm, k*lay.Length_mm
	x0, y0 := (sheet.Live_mm-wide)/2, f.Y+5
	y1 := y0 + long
	at := func(x, y float64) draw.Point { return draw.Pt(x0+k*x, y1-k*y) } // Y runs up from the shop's cut
	p.Box(sheet.Medium, x0, y0, x0+wide, y1)
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
		words := q.Name()
		if w, h := b.X-a.X, a.Y-b.Y; h >= layoutLabel {
			if p.Width(words, layoutLabel, draw.Upright) < w-1 {
				p.Text((a.X+b.X)/2, (a.Y+b.Y)/2+layoutLabel*0.35, layoutLabel, draw.Upright, 0.5, words)
			} else if short := short(q); p.Width(short, layoutLabel, draw.Upright) < w {
				p.Text((a.X+b.X)/2, (a.Y+b.Y)/2+layoutLabel*0.35, layoutLabel, draw.Upright, 0.5, short)
			}
		}
	}
	p.Measure(draw.Pt(x0, y0-2.2), draw.Pt(x0+wide, y0-2.2), j.len(lay.Bolt_mm))
	p.Measure(draw.Pt(x0+wide+8, y1), draw.Pt(x0+wide+8, y0), j.len(lay.Length_mm))
	ax := x0 - 5
	mid := (y0 + y1) / 2
	half := min(long/2, 14)
	p.Line(sheet.Medium, nil, draw.Pt(ax, mid+half), draw.Pt(ax, mid-half))
	p.Lines(sheet.Medium, nil, []draw.Point{draw.Pt(ax-1.2, mid-half+2), draw.Pt(ax, mid-half), draw.Pt(ax+1.2, mid-half+2)},
		[]draw.Point{draw.Pt(ax-1.2, mid+half-2), draw.Pt(ax, mid+half), draw.Pt(ax+1.2, mid+half-2)})
	p.Text(ax-1.4, mid+1, sheet.Small, draw.Italic, 1, word.Say("warp"))
	f.Y = y1 + 1.5
	f.Small(word.Say("~~1 : %s. The shop's cut is below; dotted: selvedges; grey: band and swatches; %s at either end to straighten the cut. Pieces cover %s %% of the cloth.~~", trim(1/k, 1), j.len(lay.Square_mm), trim(100*lay.Used, 0)))
}

func short(q pattern.Placed) word.Text {
	if q.Number > 0 {
		return word.Say("%d", q.Number)
	}
	return q.Kind.Name(0, pattern.NoSleeve)
}

func (j *job) pieces() [][]word.Text {
	lay := j.Pattern.Cut.Layout
	washed := lay.Washed()
	type key struct {
		kind       pattern.Kind
		long, wide int
		along      scheme.Along
	}
	groups := map[key][]int{}
	var keys []key
	for i, q := range washed.Placed {
		k := key{q.Kind, int(math.Round(10 * q.Long_mm)), int(math.Round(10 * q.Wide_mm)), q.Along}
		if groups[k] == nil {
			keys = append(keys, k)
		}
		groups[k] = append(groups[k], i)
	}
	slices.SortStableFunc(keys, func(a, b key) int {
		return cmp.Compare(min(a.kind, pattern.KindBand+1), min(b.kind, pattern.KindBand+1))
	})
	size := func(q pattern.Placed) word.Text {
		long, wide := q.Long_mm, q.Wide_mm
		if q.Along == scheme.Weft {
			long, wide = wide, long
		}
		switch {
		case q.Kind == pattern.KindSquare:
			return word.Say("%s × %s mm", trim(long, 0), trim(wide, 0)) // weighed: in mm whatever the units
		case q.Kind.Swatch():
			return word.Say("%s × %s", j.swatchLen(long), j.swatchLen(wide))
		}
		return word.Say("%s × %s", j.len(long), j.len(wide))
	}
	var rows [][]word.Text
	for _, k := range keys {
		first := groups[k][0]
		name := k.kind.Name(0, pattern.NoSleeve)
		switch strip := k.kind == pattern.KindStrip; {
		case strip && j.Pattern.Made > 1:
			name = word.Say("strip %s of each", numbers(washed.Placed, groups[k]))
		case strip && len(groups[k]) > 1:
			name = word.Say("strips %s", numbers(washed.Placed, groups[k]))
		case strip:
			name = washed.Placed[first].Name()
		}
		rows = append(rows, []word.Text{name, word.Say("%d", len(groups[k])), size(washed.Placed[first]), size(lay.Placed[first]), along[washed.Placed[first].Along]})
	}
	return rows
}

// numbers writes the numbers of strips: "1 to 3, 5".
func numbers(all []pattern.Placed, which []int) word.Text {
	var ns []int
	for _, i := range which {
		ns = append(ns, all[i].Number)
	}
	slices.Sort(ns)
	ns = slices.Compact(ns) // of a pair
	var runs []word.Text
	for i := 0; i < len(ns); {
		k := i
		for k+1 < len(ns) && ns[k+1] == ns[k]+1 {
			k++
		}
		if k > i {
			runs = append(runs, word.Say("%d to %d", ns[i], ns[k]))
		} else {
			runs = append(runs, word.Say("%d", ns[i]))
		}
		i = k + 1
	}
	return word.Join(", ", runs...)
}

func (j *job) sums() word.Text {
	st, cut := j.Pattern.Strip, j.Pattern.Cut
	var joins float64
	for _, x := range cut.Joins {
		joins += x.Consumes_mm
	}
	part := func(mm float64, named word.Text) word.Text {
		if mm > 0 {
			return named
		}
		return word.Text{}
	}
	wide := word.Join(" + ", part(st.Depth_mm, word.Say("depth %s", j.len(st.Depth_mm))), part(st.Hem_mm, word.Say("hem %s", j.len(st.Hem_mm))),
		part(st.Takeup_mm, word.Say("turned in at the stitch line %s", j.len(st.Takeup_mm))))
	long := word.Join(" + ", part(st.Marked_mm, word.Say("marks %s", j.len(st.Marked_mm))), part(st.Hem_mm, word.Say("two end hems %s", j.len(2*st.Hem_mm))),
		part(st.Spare_mm, word.Say("spare %s", j.len(st.Spare_mm))))
	var pieces, left word.Text
	if n := len(cut.Joins); n > 0 {
		pieces = word.Count(n, "%s join in %s", "%s joins in %s", thousands(n), word.Count(len(cut.Pieces), "%s piece", "%s pieces", thousands(len(cut.Pieces))))
		if joins > 0 {
			pieces = word.Count(n, "%s join in %s take %s of cloth more", "%s joins in %s take %s of cloth more", thousands(n), word.Count(len(cut.Pieces), "%s piece", "%s pieces", thousands(len(cut.Pieces))), j.len(joins))
		}
	}
	if want := float64(2*j.s.Strip.Spare) * j.Ruff.Plan.Panel_mm; st.Have_mm == 0 && st.Spare_mm < want-0.5 {
		left = word.Count(j.s.Strip.Spare, "The whole spare of %s set would take a piece of its own: what the last piece has room for is left.", "The whole spare of %s sets would take a piece of its own: what the last piece has room for is left.", thousands(j.s.Strip.Spare))
	}
	return word.Join(" ", word.Say("The strip's width, %s = %s. Its length, %s.", j.len(st.Width_mm), wide, word.Join("; ", word.Say("%s = %s", j.len(st.Length_mm), long), pieces)), left)
}

// ways names the other ways of cutting that take the least cloth, where there are
// any.
func (j *job) ways(f *sheet.Flow) {
	all := slices.Clone(j.Pattern.Ways)
	slices.SortStableFunc(all, func(a, b pattern.Way) int { return cmp.Compare(a.Buy.Need_mm, b.Buy.Need_mm) })
	var said []word.Text
	for _, w := range all {
		if w.Along == j.Pattern.Cut.Along && w.Side == j.Pattern.Cut.Side {
			continue
		}
		way := when(w.Along == scheme.Warp, word.Say("along the %s, %d side by side", along[w.Along], w.Side), word.Say("along the %s", along[w.Along]))
		joins := word.Count(w.Joins, "%s join", "%s joins", thousands(w.Joins))
		if w.Shown > 0 {
			joins = word.Count(w.Joins, "%s join of which %d would show", "%s joins of which %d would show", thousands(w.Joins), w.Shown)
		}
		if said = append(said, word.Say("%s: %s, %s", way, j.bought(w.Buy), joins)); len(said) == 4 {
			break
		}
	}
	if len(said) > 0 {
		f.Small(word.Say("**Other ways to cut the strip:** %s.", word.Join("; ", said...)))
	}
}
