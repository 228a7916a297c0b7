package edit

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Span is a distance in plan that is told while something is dragged.
type Span struct{ From, To plan.Point }

// MM is how long the span is.
func (s Span) MM() float64 { return s.To.Sub(s.From).Len() }

// Spans are the distances that what a handle moves is placed by, as it lies in a job: from the nearest corner or post
// along its wall, its own size where an edge is dragged, from the two nearest walls where it stands by itself.
// The layout is that of the job.
func Spans(j *job.Job, l *layout.Layout, h Handle) []Span {
	c := l.Corners
	switch h.Kind {
	case HandleDoorway, HandleWindow, HandleFixture:
		if wall, offsetMM, longMM, ok := h.atWall(j); ok && *wall >= 0 && *wall < len(l.Walls) {
			return alongWall(j, &l.Walls[*wall], h, *offsetMM, *offsetMM+longMM)
		}
	case HandleDepth:
		return []Span{{c[0], c[3]}}
	case HandleRight, HandleLeft:
		return []Span{{c[3], c[2]}}
	case HandleShower:
		if s := &j.Shower; s.Wall >= 0 && s.Wall < len(l.Walls) {
			return alongWall(j, &l.Walls[s.Wall], h, s.OffsetMM, s.OffsetMM+s.WidthMM)
		}
	case HandleDrain:
		return drainSpans(j, l)
	case HandleExit:
		if e := &j.Waste.Exit; e.Kind == job.ExitWall && e.Wall >= 0 && e.Wall < len(l.Walls) {
			return alongWall(j, &l.Walls[e.Wall], h, e.OffsetMM, e.OffsetMM)
		}
	case HandleSide:
		return sideSpans(l, h.Index)
	case HandleCorner:
		if n := len(l.Walls); h.Index >= 0 && h.Index < n {
			before := &l.Walls[(h.Index+n-1)%n]
			return []Span{{before.A, before.B}, {l.Walls[h.Index].A, l.Walls[h.Index].B}}
		}
	case HandleTurn:
		run := waste.Lay(*j, *l)
		if turns := Turns(*j, run); h.Index >= 0 && h.Index < len(turns) && len(run.Corners) > 1 {
			corners := withEnds(turns, run)
			return []Span{{corners[h.Index], corners[h.Index+1]}, {corners[h.Index+1], corners[h.Index+2]}}
		}
		return nil
	case HandleJoist:
		return joistSpans(l, h.Index)
	}
	if at, ok := h.stands(j); ok {
		return fromWalls(l, at, 2)
	}
	return nil
}

// alongWall is from the nearer end of a stretch of a wall to the next corner, post or end of something at that wall.
func alongWall(j *job.Job, w *layout.Wall, h Handle, fromMM, toMM float64) []Span {
	before, after := 0.0, w.LengthMM
	stop := func(other Handle, wall int, atMM, longMM float64) {
		if wall != w.Index || other == h {
			return
		}
		for _, mm := range [2]float64{atMM, atMM + longMM} {
			if mm <= fromMM+plan.HairMM {
				before = math.Max(before, mm)
			}
			if mm >= toMM-plan.HairMM {
				after = math.Min(after, mm)
			}
		}
	}
	for i, d := range j.Room.Doorways {
		stop(Handle{HandleDoorway, i}, d.Wall, d.OffsetMM, d.WidthMM)
	}
	for i, o := range j.Room.Windows {
		stop(Handle{HandleWindow, i}, o.Wall, o.OffsetMM, o.WidthMM)
	}
	for i, f := range j.Room.Fixtures {
		stop(Handle{HandleFixture, i}, f.Wall, f.OffsetMM, f.WidthMM)
	}
	spans := []Span{{w.At(before), w.At(fromMM)}, {w.At(toMM), w.At(after)}}
	return nearer(spans, 1)
}

// nearer are the shortest of some spans that have a length, so many.
func nearer(spans []Span, most int) []Span {
	const leastMM = 0.5
	spans = slices.DeleteFunc(spans, func(s Span) bool { return s.MM() < leastMM })
	slices.SortStableFunc(spans, func(a, b Span) int { return cmp.Compare(a.MM(), b.MM()) })
	return spans[:min(most, len(spans))]
}

// drainSpans are how far a drain's ends are from those of its side, or one by itself from the walls.
func drainSpans(j *job.Job, l *layout.Layout) []Span {
	if !j.Former.Fall.Linear() {
		return fromWalls(l, l.DrainCentre, 2)
	}
	half := l.DrainAlong.Mul(j.DrainLengthMM() / 2)
	var spans []Span
	for _, iv := range l.Shower.Clip(l.DrainCentre, l.DrainAlong) {
		if iv.From <= 0 && iv.To >= 0 {
			spans = append(spans, Span{l.DrainCentre.Add(l.DrainAlong.Mul(iv.From)), l.DrainCentre.Sub(half)},
				Span{l.DrainCentre.Add(half), l.DrainCentre.Add(l.DrainAlong.Mul(iv.To))})
		}
	}
	return nearer(spans, 2)
}

// sideSpans is how long the wall is that stands before one that is moved, or after it where that lies in line.
func sideSpans(l *layout.Layout, wall int) []Span {
	n := len(l.Walls)
	if wall < 0 || wall >= n {
		return nil
	}
	w, next := &l.Walls[(wall+n-1)%n], &l.Walls[(wall+1)%n]
	if math.Abs(w.Along.Dot(l.Walls[wall].Outward)) < leastSine {
		w = next
	}
	return []Span{{w.A, w.B}}
}

// joistSpans is from the nearest wall that a joist runs along to its middle.
func joistSpans(l *layout.Layout, index int) []Span {
	if index < 0 || index >= len(l.Joists) {
		return nil
	}
	const alongCos = 0.99
	at := l.Joists[index].Middle()
	var spans []Span
	for i := range l.Walls {
		if w := &l.Walls[i]; math.Abs(w.Along.Dot(l.Joists[index].Along)) > alongCos {
			spans = append(spans, Span{at.Add(w.Outward.Mul(w.A.Sub(at).Dot(w.Outward))), at})
		}
	}
	return nearer(spans, 1)
}

// fromWalls are how far a place in the room is from the nearest walls that it stands before, one in each direction.
func fromWalls(l *layout.Layout, at plan.Point, most int) []Span {
	var spans []Span
	for i := range l.Walls {
		w := &l.Walls[i]
		along, away := at.Sub(w.A).Dot(w.Along), w.A.Sub(at).Dot(w.Outward)
		if along >= 0 && along <= w.LengthMM && away > 0 {
			spans = append(spans, Span{w.At(along), at})
		}
	}
	var out []Span
	for _, s := range nearer(spans, len(spans)) {
		crosses := len(out) == 0 || math.Abs(cross(s.To.Sub(s.From).Normalize(), out[0].To.Sub(out[0].From).Normalize())) > leastSine
		if crosses && len(out) < most {
			out = append(out, s)
		}
	}
	return out
}
