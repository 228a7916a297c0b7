package settle

import (
	"math"
	"slices"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// trims has the openings in joists go along with what they were cut round, and keeps them where joists are: at the joist
// nearest to theirs, as little along it as must be.
func (s *settler) trims() {
	if !s.openingsTouched() || s.job.Floor.Kind != job.FloorTimber {
		return
	}
	if was, is := s.earlier.cutRound(), cutRound(&s.job); len(was) == len(is) {
		s.round = [2][]body{was, is}
	}
	for i := range s.job.Floor.Joists.Trims {
		key := trimKey(i)
		if !s.freeTrim(key) {
			continue
		}
		if i < len(s.before.Floor.Joists.Trims) {
			s.trimAlong(i, key)
		}
		if s.troubled(key) {
			s.moveTrim(i, key)
		}
	}
}

func trimKey(i int) string { return job.Nth(job.TrimsKey, i) }

func (s *settler) freeTrim(key string) bool {
	return s.free(key+".joist", key+".further", key+".fromMM", key+".toMM")
}

// openingsTouched tells whether there are openings in joists, and the edit changes where joists are or what these may be cut round.
func (s *settler) openingsTouched() bool {
	return len(s.job.Floor.Joists.Trims) > 0 &&
		s.changed("room.outline", job.JoistsKey, showerKey, "drain", "former.fall", "waste.exit", job.StacksKey)
}

// body is something that joists may be cut out round, as far as it reaches along them and across from their origin.
type body struct {
	what        message.ID
	low, high   plan.Point
	alongAcross plan.Point // of its middle
}

// cutRound is what openings in a job's joists may be cut round: the trap, where the waste drops, the stacks. None of a job
// that cannot be laid out without its openings.
func cutRound(j *job.Job) (out []body) {
	whole := *j
	whole.Floor.Joists.Trims, whole.Standings = nil, nil
	if whole.Floor.Kind != job.FloorTimber {
		return nil
	}
	l, ok := inPlan(&whole)
	if !ok {
		return nil
	}
	across := plan.Left(l.JoistAlong)
	from := func(p plan.Point) plan.Point {
		p = p.Sub(l.JoistOrigin)
		return plan.Point{p.Dot(l.JoistAlong), p.Dot(across)}
	}
	if low, high, is := l.Trap.EachCorner(from).Bounds(); is {
		out = append(out, body{"trimmed.trap", low, high, from(l.TrapCentre)})
	}
	round := func(what message.ID, at plan.Point, radiusMM float64) {
		at = from(at)
		out = append(out, body{what, at.Sub(plan.Point{radiusMM, radiusMM}), at.Add(plan.Point{radiusMM, radiusMM}), at})
	}
	if j.Waste.Exit.Kind == job.ExitFloor {
		round("trimmed.drop", j.Waste.Exit.At, j.Waste.OutsideDiameterMM/2)
	}
	for i := range j.Room.Stacks {
		round("trimmed.stack", j.Room.Stacks[i].At, j.Room.Stacks[i].OutsideMM/2)
	}
	return out
}

// opening is the clear opening of a trim, along the joists and across from their origin, and which of its ends have a
// trimmer; false where joists are too few for it.
func opening(j *job.Job, lines []job.JoistLine, t job.Trim) (low, high plan.Point, trimmer [2]bool, ok bool) {
	by := t.Carriers()
	if by[0] < 1 || by[1] > len(lines) || t.Further < 0 {
		return low, high, trimmer, false
	}
	from, to, trimmer := t.Opening(lines, t.Joist)
	second := 1.5 * j.Floor.Joists.WidthMM
	return plan.Point{from, lines[by[0]-1].OffsetMM + second}, plan.Point{to, lines[by[1]-1].OffsetMM - second}, trimmer, true
}

// roundOf is which of some bodies an opening is round, by its index; -1 for none.
func roundOf(j *job.Job, lines []job.JoistLine, t job.Trim, bodies []body) int {
	low, high, _, ok := opening(j, lines, t)
	return slices.IndexFunc(bodies, func(b body) bool {
		at := b.alongAcross
		return ok && at.X() > low.X() && at.X() < high.X() && at.Y() > low.Y() && at.Y() < high.Y()
	})
}

// spare is the least room that an opening leaves round a body, no more than is usual; false where there is no such opening.
// Towards an end of the joists' own any room does.
func spare(j *job.Job, lines []job.JoistLine, t job.Trim, b body) (mm float64, ok bool) {
	low, high, trimmer, ok := opening(j, lines, t)
	mm = math.Min(edit.RoundTrapMM, math.Min(b.low.Y()-low.Y(), high.Y()-b.high.Y()))
	if trimmer[0] {
		mm = math.Min(mm, b.low.X()-low.X())
	}
	if trimmer[1] {
		mm = math.Min(mm, high.X()-b.high.X())
	}
	return mm, ok
}

// trimAlong has an opening go along with what it was cut round, where that has moved out of it: as far, at the joist that
// is then nearest, with one or two more cut where that takes it. Where no place does it stays.
func (s *settler) trimAlong(i int, key string) {
	was, is := s.round[0], s.round[1]
	trim := &s.job.Floor.Joists.Trims[i]
	before, old, lines := s.before.Floor.Joists.Trims[i], s.before.JoistLines().Lines, s.job.JoistLines().Lines
	k := roundOf(s.before, old, before, was)
	if k < 0 || *trim != before {
		return
	}
	room, _ := spare(s.before, old, before, was[k])
	round := func(t job.Trim) bool {
		mm, ok := spare(&s.job, lines, t, is[k])
		return ok && mm >= room-plan.HairMM
	}
	if round(*trim) && !s.troubled(key) {
		return
	}
	by := is[k].alongAcross.Sub(was[k].alongAcross)
	middle := func(lines []job.JoistLine, t job.Trim) float64 {
		return (lines[t.Joist-1].OffsetMM + lines[t.Last()-1].OffsetMM) / 2
	}
	wanted := middle(old, before) + by.Y()
	for more := range 3 {
		var places []job.Trim
		for n := 1; n+before.Further+more <= len(lines); n++ {
			places = append(places, s.alongWith(before, job.Trim{Joist: n, Further: before.Further + more}, old, lines, by.X(), is[k]))
		}
		slices.SortStableFunc(places, func(a, b job.Trim) int {
			return nearer(math.Abs(middle(lines, a)-wanted), math.Abs(middle(lines, b)-wanted))
		})
		for _, t := range places {
			if *trim = t; round(t) && !s.troubled(key) {
				return
			}
		}
	}
	*trim = before
}

// nearer orders two distances.
func nearer(a, b float64) int {
	switch {
	case a < b-plan.HairMM:
		return -1
	case b < a-plan.HairMM:
		return 1
	}
	return 0
}

// alongWith is an opening in other joists so far along them as what it was cut round has gone: at an end of the joists where
// it was, or where too little of one would be left.
func (s *settler) alongWith(before, t job.Trim, old, lines []job.JoistLine, byMM float64, b body) job.Trim {
	first, was := lines[t.Joist-1], old[before.Joist-1]
	from, to := was.FromMM+before.FromMM+byMM, was.FromMM+before.ToMM+byMM
	if before.AtStart() {
		from = math.Min(from, b.low.X()-edit.RoundTrapMM)
	}
	if before.AtEnd(was) {
		to = math.Max(to, b.high.X()+edit.RoundTrapMM)
	}
	least := s.job.Floor.Joists.WidthMM + job.LeastPieceMM
	t.FromMM, t.ToMM = s.onStep(from-first.FromMM, true), s.onStep(to-first.FromMM, false)
	if t.FromMM < least {
		t.FromMM = 0
	}
	if t.ToMM > first.LengthMM()-least {
		t.ToMM = first.LengthMM()
	}
	return t
}

// trimRound is what an opening was cut round before, by its index, and whether it still is; nothing where it was round nothing, or
// there is no such opening before or now.
func (s *settler) trimRound(i int) (what message.ID, still bool) {
	before, now := s.before.Floor.Joists.Trims, s.job.Floor.Joists.Trims
	was, is := s.round[0], s.round[1]
	if len(was) == 0 || i >= len(before) || len(before) != len(now) {
		return "", true
	}
	k := roundOf(s.before, s.before.JoistLines().Lines, before[i], was)
	if k < 0 {
		return "", true
	}
	return was[k].what, roundOf(&s.job, s.job.JoistLines().Lines, now[i], is) == k
}

// trimWent is what an opening went along with, by its path; nothing where it is round nothing that it was round before.
func (s *settler) trimWent(key string) message.ID {
	_, i, _, _ := job.InList(key)
	if what, still := s.trimRound(i); still {
		return what
	}
	return ""
}

// trimsLeft tells of openings that stay where they were while what they were cut round has gone.
func (s *settler) trimsLeft() (out []Moved) {
	for i, t := range s.job.Floor.Joists.Trims {
		key := trimKey(i)
		if what, still := s.trimRound(i); !still && t == s.before.Floor.Joists.Trims[i] && !s.stated(key) {
			told := message.Of("moved.trim-left", message.In("thing", s.named(key, true)), message.In("what", message.Of(what)))
			out = append(out, Moved{What: told})
		}
	}
	return out
}

// troubled tells whether a job means nothing for what is within a path.
func (s *settler) troubled(key string) bool {
	for _, p := range s.job.Validate() {
		if within(p.Key, key) {
			return true
		}
	}
	return false
}

// moveTrim looks for the nearest place for an opening.
func (s *settler) moveTrim(i int, key string) {
	trim := &s.job.Floor.Joists.Trims[i]
	was := *trim
	lines := s.job.JoistLines().Lines
	for off := range len(lines) + 1 {
		for _, n := range [2]int{was.Joist - off, was.Joist + off} {
			if n < 1 || n > len(lines) {
				continue
			}
			for _, t := range alongJoist(was, n, lines[n-1].LengthMM(), s.job.Floor.Joists.WidthMM+job.LeastPieceMM) {
				if *trim = t; !s.troubled(key) {
					return
				}
			}
		}
	}
	*trim = was
}

// alongJoist are places for an opening in a joist, the least moved first: as it was, at the joist's
// end or start, or as near to one as a piece between allows, and shorter.
func alongJoist(was job.Trim, joist int, lengthMM, leastMM float64) (out []job.Trim) {
	long := was.ToMM - was.FromMM
	add := func(from, to float64) {
		t := was
		t.Joist, t.FromMM, t.ToMM = joist, math.Max(0, math.Round(from)), math.Min(lengthMM, math.Round(to))
		out = append(out, t)
	}
	out = append(out, job.Trim{Joist: joist, Further: was.Further, FromMM: was.FromMM, ToMM: was.ToMM})
	last := math.Floor(lengthMM - leastMM)
	add(last-long, last)
	add(math.Max(was.FromMM, leastMM), last)
	add(math.Ceil(leastMM), math.Ceil(leastMM)+long)
	out = append(out, job.Trim{Joist: joist, Further: was.Further, FromMM: was.FromMM, ToMM: lengthMM})
	return out
}
