package job

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// mostTrims is how many openings between trimmers a job may have.
const mostTrims = 20

// Trim is an opening in a timber floor for which one joist, or several side by side, is
// cut out between two trimmers. They run across to the joists beside, which are doubled.
type Trim struct {
	Joist int `json:"joist"` // the first that is cut, counted from one, as the joists lie
	// Further is how many joists after it, as they are counted, are cut as well.
	Further int `json:"further,omitempty"`
	// FromMM and ToMM are the ends of the opening between the trimmers, along the first
	// joist from its start in the room. At that joist's own end there is no trimmer, and
	// all of them are cut back to theirs.
	FromMM float64 `json:"fromMM"`
	ToMM   float64 `json:"toMM"`
}

// Last is the last joist that is cut, and Cuts tells whether one is.
func (t Trim) Last() int       { return t.Joist + t.Further }
func (t Trim) Cuts(n int) bool { return n >= t.Joist && n <= t.Last() }

// Carriers are the joists beside those cut, which carry the trimmers.
func (t Trim) Carriers() [2]int { return [2]int{t.Joist - 1, t.Last() + 1} }

// Opening is the clear opening in one of the joists that are cut, along the joists from
// their origin; a trimmer tells whether there is one at its start and at its end.
func (t Trim) Opening(lines []JoistLine, n int) (fromMM, toMM float64, trimmer [2]bool) {
	first, own := lines[t.Joist-1], lines[n-1]
	fromMM, toMM = own.FromMM, own.ToMM
	if trimmer[0] = !t.AtStart(); trimmer[0] {
		fromMM = first.FromMM + t.FromMM
	}
	if trimmer[1] = !t.AtEnd(first); trimmer[1] {
		toMM = first.FromMM + t.ToMM
	}
	return fromMM, toMM, trimmer
}

// JoistLine is the centre line of a joist in the room's plan.
type JoistLine struct {
	// OffsetMM is how far it lies across the joists from their origin; FromMM and ToMM
	// are its ends along them.
	OffsetMM, FromMM, ToMM float64
}

// LengthMM of the joist.
func (l JoistLine) LengthMM() float64 { return l.ToMM - l.FromMM }

// carries tells whether the joist is there all the way between two places along it.
func (l JoistLine) carries(fromMM, toMM float64) bool { return fromMM >= l.FromMM && toMM <= l.ToMM }

// JoistLines are the joists of a timber floor as they lie before any is cut.
type JoistLines struct {
	// Origin is the outermost point on the joists' right-hand side and at their start;
	// Along is the way that they run, and the room's extent that way LengthMM.
	Origin, Along plan.Point
	LengthMM      float64
	Lines         []JoistLine
}

// mostJoists is how many joists are drawn at most.
const mostJoists = 601

// JoistLines works out where the joists of a timber floor lie; none on a slab.
func (j Job) JoistLines() JoistLines {
	if !timber(j) {
		return JoistLines{}
	}
	js := j.Floor.Joists
	along := plan.DirectionDeg(js.DirectionDeg)
	across := plan.Left(along)
	lowU, lowV, highU, highV := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range j.Room.Outline {
		lowU, highU = math.Min(lowU, p.Dot(along)), math.Max(highU, p.Dot(along))
		lowV, highV = math.Min(lowV, p.Dot(across)), math.Max(highV, p.Dot(across))
	}
	out := JoistLines{Origin: along.Mul(lowU).Add(across.Mul(lowV)), Along: along, LengthMM: highU - lowU}
	room := plan.FromRing(j.Room.Outline)
	first := math.Ceil((-js.FirstOffsetMM - js.WidthMM/2) / js.SpacingMM)
	for k := first; len(out.Lines) < mostJoists; k++ {
		v := js.FirstOffsetMM + k*js.SpacingMM
		if v > highV-lowV+js.WidthMM/2 {
			break
		}
		// Reach over the room: the centre line, or for a joist half under a
		// wall the room's nearer edge line.
		probe := out.Origin.Add(across.Mul(math.Max(0.5, math.Min(highV-lowV-0.5, v))))
		if inside := room.Clip(probe, along); len(inside) > 0 {
			out.Lines = append(out.Lines, JoistLine{v, inside[0].From, inside[len(inside)-1].To})
		}
	}
	return out
}

// LeastPieceMM is the shortest piece of a cut joist that is left between a trimmer and
// the joist's end or the next trimmer. Common practice, no source.
const LeastPieceMM = 50

// AtStart and AtEnd tell whether the opening takes that end of its joist.
func (t Trim) AtStart() bool             { return t.FromMM <= plan.HairMM }
func (t Trim) AtEnd(line JoistLine) bool { return t.ToMM >= line.LengthMM()-plan.HairMM }

// TrimsKey is the key of the list of joists that are cut out and trimmed.
const TrimsKey = JoistsKey + ".trims"

// trimList is the list of the joists that are cut out and trimmed.
func trimList() List {
	return listed(TrimsKey, mostTrims, func(j *Job) *[]Trim { return &j.Floor.Joists.Trims }, UsualTrim,
		whole("joist", 1, mostJoists, func(t *Trim) *int { return &t.Joist }),
		whole("further", 0, mostJoists, func(t *Trim) *int { return &t.Further }),
		along("fromMM", 0, farthestMM, 10, func(t *Trim) *float64 { return &t.FromMM }),
		along("toMM", 0, farthestMM, 10, func(t *Trim) *float64 { return &t.ToMM }))
}

// usualTrimMM is how long an opening is at first. Common practice, no source.
const usualTrimMM = 400

// UsualTrim is an opening in the middle of the joist nearest to the middle of the floor
// that can be trimmed; in the middle joist where none can.
func UsualTrim(j *Job) Trim {
	lines := j.JoistLines().Lines
	middle := (len(lines) + 1) / 2
	if middle == 0 {
		return Trim{Joist: 1, ToMM: usualTrimMM}
	}
	in := func(n int) Trim {
		from := math.Max(0, math.Round((lines[n-1].LengthMM()-usualTrimMM)/2))
		return Trim{Joist: n, FromMM: from, ToMM: from + usualTrimMM}
	}
	for off := range len(lines) {
		for _, n := range [2]int{middle - off, middle + off} {
			if n < 1 || n > len(lines) {
				continue
			}
			with := *j
			with.Floor.Joists.Trims = slices.Concat(j.Floor.Joists.Trims, []Trim{in(n)})
			v := &validator{}
			v.trims(with)
			if len(v.problems) == 0 {
				return in(n)
			}
		}
	}
	return in(middle)
}

// trims checks that every joist that is cut is there, leaves pieces, and has joists beside
// it that carry its trimmers.
func (v *validator) trims(j Job) {
	if len(j.Floor.Joists.Trims) == 0 {
		return
	}
	lines := j.JoistLines().Lines
	js := &j.Floor.Joists
	v.from = j.JoistsFrom()
	for i, t := range js.Trims {
		key := Nth(TrimsKey, i)
		switch {
		case t.Joist < 1 || t.Joist > len(lines):
			v.add(key+".joist", "problem.no-joist", message.N("joists", len(lines)), message.No("first", t.Joist), message.Wall("wall", v.from))
			continue
		case t.Further < 0:
			continue // out of its bounds, which is said
		case t.Further > len(lines)-t.Joist:
			v.add(key+".further", "problem.no-further-joist",
				message.N("joists", len(lines)-t.Joist), v.joist("joist", t.Joist), message.No("further", t.Further))
			continue
		}
		if v.trimAlong(key, t, lines, js.WidthMM) {
			v.trimCarried(key, js, i, lines)
		}
		for k, o := range js.Trims[:i] {
			if t.overlaps(o, lines, js.WidthMM) {
				v.add(key, "problem.trims-overlap", message.No("other", k+1))
			}
		}
	}
}

// joist is one of the joists, by its number.
func (v *validator) joist(name string, n int) message.Arg {
	return message.In(name, JoistNamed(n, v.from))
}

// overlaps tells whether two openings in the same joists leave no piece and trimmers so
// wide between them.
func (t Trim) overlaps(o Trim, lines []JoistLine, widthMM float64) bool {
	if o.Joist != t.Joist || o.Further != t.Further {
		return false // one cuts what is to carry the other
	}
	from, to, _ := t.Opening(lines, t.Joist)
	otherFrom, otherTo, _ := o.Opening(lines, o.Joist)
	return math.Max(from-otherTo, otherFrom-to) < 2*widthMM+LeastPieceMM
}

// trimAlong checks an opening along its joists, which are so wide.
func (v *validator) trimAlong(key string, t Trim, lines []JoistLine, widthMM float64) bool {
	line := lines[t.Joist-1]
	length, least := line.LengthMM(), widthMM+LeastPieceMM
	switch {
	case t.FromMM >= t.ToMM:
		v.add(key+".toMM", "problem.trim-order", message.Along("from", t.FromMM), message.Along("to", t.ToMM))
	case t.ToMM > length+plan.HairMM:
		v.add(key+".toMM", "problem.trim-past-end", longest("length", length), message.Along("to", math.Ceil(t.ToMM-plan.HairMM)))
	case t.AtStart() && t.AtEnd(line):
		v.add(key, "problem.trim-all")
	case !t.AtStart() && t.FromMM < least:
		v.add(key+".fromMM", "problem.trim-start", message.Along("least", least), message.Along("from", t.FromMM))
	case !t.AtEnd(line) && t.ToMM > length-least:
		v.add(key+".toMM", "problem.trim-end", longest("length", length), longest("most", length-least), message.Along("to", t.ToMM))
	default:
		return v.trimFurther(key, t, lines, least)
	}
	return false
}

// trimFurther checks that the joists that are cut with the first keep pieces beside their
// trimmers, at least so long with those.
func (v *validator) trimFurther(key string, t Trim, lines []JoistLine, leastMM float64) bool {
	for n := t.Joist + 1; n <= t.Last(); n++ {
		own := lines[n-1]
		from, to, trimmer := t.Opening(lines, n)
		if trimmer[0] && from-own.FromMM < leastMM || trimmer[1] && own.ToMM-to < leastMM {
			v.add(key+".further", "problem.trim-further-short", v.joist("other", n), message.Along("least", leastMM))
			return false
		}
	}
	return true
}

// trimCarried checks that the joists beside those of an opening carry its trimmers.
func (v *validator) trimCarried(key string, js *Joists, i int, lines []JoistLine) {
	t := js.Trims[i]
	if js.SpacingMM < 2*js.WidthMM+1 {
		v.add(key, "problem.trim-no-room", message.MM("width", js.WidthMM))
		return
	}
	if t.Joist == 1 && t.Last() == len(lines) {
		v.add(key, "problem.trim-every-joist")
		return
	}
	from, to, trimmer := t.Opening(lines, t.Joist)
	for side, n := range t.Carriers() {
		edge := [2]int{t.Joist, t.Last()}[side]
		at := key + [2]string{".joist", ".further"}[side]
		if t.Further == 0 {
			at = key + ".joist"
		}
		if n < 1 || n > len(lines) {
			v.add(at, "problem.trim-no-carrier", v.joist("joist", edge))
			return
		}
		for _, o := range js.Trims {
			if o.Cuts(n) {
				v.add(at, "problem.trim-carrier-cut", v.joist("other", n))
				return
			}
		}
		by := lines[n-1]
		if trimmer[0] && !by.carries(from-js.WidthMM, from) || trimmer[1] && !by.carries(to, to+js.WidthMM) {
			v.add(key, "problem.trim-carrier-short", v.joist("other", n))
			return
		}
	}
}

// whole is an entry for a whole number. What is beyond the bounds stays beyond them.
func whole[T any](key string, least, greatest float64, field func(*T) *int) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		return Entry{Key: key, Number: &NumberEntry{Kind: unit.Count, Least: least, Greatest: greatest, Step: 1,
			At: func(j *Job, i int) *float64 {
				x := float64(*field(at(j, i)))
				return &x
			},
			set: func(j *Job, i int, v *float64) {
				if v == nil {
					return
				}
				to := field(at(j, i))
				switch x := *v; {
				case !(x >= least):
					*to = int(least) - 1
				case x > greatest:
					*to = int(greatest) + 1
				default:
					*to = int(math.Round(x))
				}
			}}}
	}
}
