package edit

import (
	"math"
	"slices"

	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/waste"
)

// TrimJoist cuts the joists that the trap stands on out round it and the drain's channel,
// between trimmers; nothing where it stands on none, or they are cut out there.
func TrimJoist() Edit { return TrimJoists(rule.Subject{Of: rule.TrapInJoist}, false) }

// TrimJoists cuts the joists out that a part stands in, between trimmers round it: the
// part that a measurement against a joist is of. An opening beside it becomes one with it.
// Both tells that trap and channel are to be clear of joists, not the one alone. Nothing
// where no joist is in the way, or what is in the way cannot be cut so.
func TrimJoists(of rule.Subject, both bool) Edit {
	return Of(message.Of("edit.trim-joists"), func(j *job.Job) {
		if trims, ok := trimsRound(j, of, both); ok {
			j.Floor.Joists.Trims = trims
		}
	})
}

// CloseOpenings leaves whole the joists that are cut out for openings: those of what is cut out of joists. Nothing where
// there are none.
func CloseOpenings(of []rule.Subject) Edit {
	return Of(message.Of("edit.close-openings"), func(j *job.Job) {
		l, ok := laidOut(*j)
		if !ok {
			return
		}
		closed := map[int]bool{}
		for _, c := range l.CutOuts {
			if slices.ContainsFunc(of, func(s rule.Subject) bool { return s.Number == c.Joist && s.Part == c.Which }) {
				closed[c.Trim] = true
			}
		}
		trims, _ := job.FindList(job.TrimsKey)
		for i := len(j.Floor.Joists.Trims) - 1; i >= 0; i-- {
			if closed[i] {
				trims.Remove(j, i)
			}
		}
	}).About(job.TrimsKey)
}

// RoundTrapMM is the room left round trap, channel and pipe in an opening between trimmers, and trimStepMM
// what its ends are rounded out to. Common practice, no source.
const (
	RoundTrapMM = 25
	trimStepMM  = 10
)

// inTheWay are the bodies in plan that joists are to be cut for, and those that are to be
// clear of the opening's ends as well where they lie in it.
func inTheWay(j *job.Job, l *layout.Layout, of rule.Subject, both bool) (main, with []plan.Region) {
	if both {
		return []plan.Region{l.Trap, l.Drain}, nil
	}
	run := waste.Lay(*j, *l)
	if len(run.Pieces) == 0 && of.Of != rule.TrapInJoist && of.Of != rule.DrainChannelByJoist {
		return nil, nil
	}
	switch of.Of {
	case rule.TrapInJoist:
		return []plan.Region{l.Trap}, []plan.Region{l.Drain}
	case rule.DrainChannelByJoist:
		return []plan.Region{l.Drain}, []plan.Region{l.Trap}
	case rule.PieceByJoist, rule.JoistCut:
		for i := range run.Pieces {
			if p := &run.Pieces[i]; p.Name() == of.Piece {
				return p.Around(clash.ClearanceMM), nil
			}
		}
	case rule.DropThroughFloor, rule.ExistingPipeEnd:
		r := run.Pieces[len(run.Pieces)-1].RadiusMM() + clash.ClearanceMM
		return []plan.Region{plan.Rectangle(run.Exit.Sub(plan.Point{r, r}), run.Exit.Add(plan.Point{r, r}))}, nil
	}
	return nil, nil
}

// strip is a stretch across the joists, from their origin.
type strip struct{ low, high float64 }

// trimmer works out an opening in the joists of a job.
type trimmer struct {
	lines   job.JoistLines
	widthMM float64
	trims   []job.Trim
}

// trimsRound are the job's openings with one round the part that is in joists; ok is false
// where that is nothing new.
func trimsRound(j *job.Job, of rule.Subject, both bool) (out []job.Trim, ok bool) {
	if len(j.Validate()) > 0 {
		return nil, false
	}
	l, ok := laidOut(*j)
	if !ok {
		return nil, false
	}
	t := trimmer{j.JoistLines(), j.Floor.Joists.WidthMM, j.Floor.Joists.Trims}
	main, with := inTheWay(j, &l, of, both)
	first, last := t.cut(main)
	if first == 0 {
		return nil, false
	}
	first, last = t.joined(first, last)
	u := t.along(append(main, with...), first, last)
	trim := job.Trim{Joist: first, Further: last - first}
	if trim.FromMM, trim.ToMM = t.ends(first, last, u); t.apply(&trim, &out) {
		return out, !slices.Equal(out, t.trims)
	}
	return nil, false
}

// cut are the first and the last joist that bodies are in, with the room round them, or
// whose second joist they would be in; none of number nought.
func (t *trimmer) cut(bodies []plan.Region) (first, last int) {
	reach := strip{math.Inf(1), math.Inf(-1)}
	for _, b := range bodies {
		for i, line := range t.lines.Lines {
			half := t.widthMM/2 + RoundTrapMM
			in, s := t.extents(b, strip{line.OffsetMM - half, line.OffsetMM + half})
			if s.high-s.low <= plan.HairMM || in.high <= line.FromMM || in.low >= line.ToMM {
				continue
			}
			if first == 0 || i+1 < first {
				first = i + 1
			}
			last = max(last, i+1)
		}
		_, s := t.extents(b, strip{math.Inf(-1), math.Inf(1)})
		reach = strip{min(reach.low, s.low), max(reach.high, s.high)}
	}
	if first == 0 {
		return 0, 0
	}
	second := 1.5*t.widthMM + clash.ClearanceMM
	for first > 1 && reach.low < t.lines.Lines[first-2].OffsetMM+second {
		first--
	}
	for last < len(t.lines.Lines) && reach.high > t.lines.Lines[last].OffsetMM-second {
		last++
	}
	return first, last
}

// joined takes the joists in that are cut beside some: those cannot carry their trimmers.
func (t *trimmer) joined(first, last int) (int, int) {
	for {
		a, b := first, last
		for _, o := range t.trims {
			if o.Joist <= b+1 && o.Last() >= a-1 {
				a, b = min(a, o.Joist), max(b, o.Last())
			}
		}
		if a == first && b == last {
			return a, b
		}
		first, last = a, b
	}
}

// along is how far bodies reach along the joists between the second joists beside some.
func (t *trimmer) along(bodies []plan.Region, first, last int) strip {
	between := strip{math.Inf(-1), math.Inf(1)}
	if first > 1 {
		between.low = t.lines.Lines[first-2].OffsetMM + 1.5*t.widthMM
	}
	if last < len(t.lines.Lines) {
		between.high = t.lines.Lines[last].OffsetMM - 1.5*t.widthMM
	}
	u := strip{math.Inf(1), math.Inf(-1)}
	for _, b := range bodies {
		in, _ := t.extents(b, between)
		u = strip{min(u.low, in.low), max(u.high, in.high)}
	}
	return u
}

// ends are those of an opening with room round what reaches so far, along its first joist:
// joists are cut back to their ends where too little of one would be left.
func (t *trimmer) ends(first, last int, u strip) (fromMM, toMM float64) {
	line := t.lines.Lines[first-1]
	fromMM = math.Floor((u.low-line.FromMM-RoundTrapMM)/trimStepMM) * trimStepMM
	toMM = math.Ceil((u.high-line.FromMM+RoundTrapMM)/trimStepMM) * trimStepMM
	least, start, end := t.widthMM+job.LeastPieceMM, false, false
	for _, own := range t.lines.Lines[first-1 : last] {
		start = start || line.FromMM+fromMM-own.FromMM < least
		end = end || own.ToMM-line.FromMM-toMM < least
	}
	if start {
		fromMM = 0
	}
	if end {
		toMM = line.LengthMM()
	}
	return fromMM, toMM
}

// apply puts an opening among the others, one with those that it meets; false where it
// would have to become one with an opening that is far along the joists from it.
func (t *trimmer) apply(trim *job.Trim, out *[]job.Trim) bool {
	for met := true; met; {
		met, *out = false, nil
		for _, o := range t.trims {
			from, to := t.onFirst(o, trim)
			inside := from >= trim.FromMM-plan.HairMM && to <= trim.ToMM+plan.HairMM
			near := math.Max(from-trim.ToMM, trim.FromMM-to) < 2*t.widthMM+job.LeastPieceMM
			switch same := o.Joist == trim.Joist && o.Further == trim.Further; {
			case o.Last() < trim.Joist-1 || o.Joist > trim.Last()+1 || same && !near:
				*out = append(*out, o)
			case !near:
				return false
			case !inside:
				trim.FromMM, trim.ToMM, met = min(trim.FromMM, from), max(trim.ToMM, to), true
			}
		}
	}
	*out = append(*out, *trim)
	return true
}

// onFirst is where an opening begins and ends along the first joist of another.
func (t *trimmer) onFirst(o job.Trim, trim *job.Trim) (fromMM, toMM float64) {
	line, own := t.lines.Lines[trim.Joist-1], t.lines.Lines[o.Joist-1]
	shift := own.FromMM - line.FromMM
	fromMM, toMM = o.FromMM+shift, o.ToMM+shift
	if o.AtStart() {
		fromMM = 0
	}
	if o.AtEnd(own) {
		toMM = line.LengthMM()
	}
	return fromMM, toMM
}

// extents are how far of a region within a strip across the joists reaches, along them and
// across; from the joists' origin. Of what has no part in it the highs are below the lows.
func (t *trimmer) extents(r plan.Region, within strip) (along, across strip) {
	along, across = strip{math.Inf(1), math.Inf(-1)}, strip{math.Inf(1), math.Inf(-1)}
	put := func(u, v float64) {
		along, across = strip{min(along.low, u), max(along.high, u)}, strip{min(across.low, v), max(across.high, v)}
	}
	for _, p := range r {
		for i := range p.Outer {
			a, b := p.Outer[i].Sub(t.lines.Origin), p.Outer[(i+1)%len(p.Outer)].Sub(t.lines.Origin)
			au, av := a.Dot(t.lines.Along), a.Dot(plan.Left(t.lines.Along))
			bu, bv := b.Dot(t.lines.Along), b.Dot(plan.Left(t.lines.Along))
			if av >= within.low && av <= within.high {
				put(au, av)
			}
			for _, edge := range [2]float64{within.low, within.high} {
				if (av < edge) != (bv < edge) && !math.IsInf(edge, 0) {
					put(au+(bu-au)*(edge-av)/(bv-av), edge)
				}
			}
		}
	}
	return along, across
}
