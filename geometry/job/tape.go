package job

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/survey"
	"underfall/geometry/unit"
)

// Tape is what was measured of the room with a tape; without a drawn shape nothing was. Where it was, it is what
// is stated of the room's corners: Room.Outline is worked out from it and stands in no file.
type Tape struct {
	// Drawn are the room's corners as they were drawn before: its shape, where its first corner lies and
	// which way its first wall runs. What was not measured is taken as it was drawn.
	Drawn   []plan.Point `json:"drawn,omitempty"`
	Lengths []Taped      `json:"lengths,omitempty"`
	Angles  []TapedAngle `json:"angles,omitempty"`
}

// Taped is a length measured from corner to corner, along a wall or across the room.
type Taped struct {
	// From is the corner at which the tape's zero was held, To the other one: each by the wall that starts
	// there.
	From     int     `json:"from"`
	To       int     `json:"to"`
	LengthMM float64 `json:"lengthMM"`
	// ToleranceMM is plus or minus, held by 95 of 100; 0 for the usual.
	ToleranceMM float64 `json:"toleranceMM,omitempty"`
}

// TapedAngle is an angle measured inside the room.
type TapedAngle struct {
	Corner int     `json:"corner"` // by the wall that starts there
	Deg    float64 `json:"deg"`
	// ToleranceDeg is plus or minus, held by 95 of 100; 0 for the usual.
	ToleranceDeg float64 `json:"toleranceDeg,omitempty"`
}

// How well a tape from plaster to plaster and an angle gauge tell what they measure, plus or minus. Common practice,
// no source.
const (
	UsualTapeMM   = 2
	UsualAngleDeg = 0.5
)

// Bounds of what can be measured.
const (
	leastTapedMM    = 10
	leastTapedDeg   = 5
	mostTapedDeg    = 355
	mostOffDeg      = 10
	mostTapedLength = 100
)

// The keys of what was measured with a tape.
const (
	TapeKey        = "room.tape"
	TapeLengthsKey = "room.tape.lengths"
	TapeAnglesKey  = "room.tape.angles"
)

// CornersAreMeasured is that corners are stated of a room whose corners come from what was measured.
const CornersAreMeasured message.ID = "problem.corners-are-measured"

// Measured tells whether the room's corners are worked out from what was measured with a tape.
func (r *Room) Measured() bool { return len(r.Tape.Drawn) > 0 }

// measures are all of the tape, the lengths before the angles.
func (r *Room) measures() []survey.Measure {
	n := len(r.Tape.Drawn)
	out := make([]survey.Measure, 0, len(r.Tape.Lengths)+len(r.Tape.Angles))
	for _, t := range r.Tape.Lengths {
		out = append(out, survey.Measure{Kind: survey.Distance, From: t.From, To: t.To, Value: t.LengthMM, Tolerance: orElse(t.ToleranceMM, UsualTapeMM)})
	}
	for _, a := range r.Tape.Angles {
		out = append(out, survey.Measure{Kind: survey.Angle, At: a.Corner, From: (a.Corner + 1) % n, To: (a.Corner + n - 1) % n,
			Value: a.Deg, Tolerance: orElse(a.ToleranceDeg, UsualAngleDeg)})
	}
	return out
}

func orElse(v, usual float64) float64 {
	if v > 0 {
		return v
	}
	return usual
}

// MeasurePath is the path in the job's file of a measure of the room's survey, by its index there.
func (r *Room) MeasurePath(i int) string {
	if n := len(r.Tape.Lengths); i >= n {
		return Nth(TapeAnglesKey, i-n) + ".deg"
	}
	return Nth(TapeLengthsKey, i) + ".lengthMM"
}

// LongerThanRound is the problem of a measure that is longer than the measured way round between its corners.
const LongerThanRound message.ID = "problem.longer-than-round"

// Survey is the room as measured, with what is changed of each measure, in the order of MeasurePath; problem is why
// it comes to none, nil where it does. Only of a room that was measured.
func (r *Room) Survey() (f survey.Fit, problem *Problem) {
	f, err := survey.Work(r.Tape.Drawn, r.measures())
	var far *survey.ImpossibleError
	switch {
	case err == nil:
		return f, nil
	case errors.As(err, &far):
		return f, &Problem{Key: r.MeasurePath(far.Measure), What: message.Of(LongerThanRound,
			longest("round", far.RoundMM))}
	}
	return f, &Problem{Key: TapeKey, What: message.Of("problem.tape-no-room")}
}

// WorkOut has the corners of a room that was measured be where that puts them; where it comes to none, they stay,
// and the job's check says so.
func (r *Room) WorkOut() {
	if !r.Measured() {
		return
	}
	if f, problem := r.Survey(); problem == nil {
		r.Outline = f.Corners
	}
}

// Square are the corners of the room with those that were drawn square made so, and walls as near to what was measured as
// they can then be; false where the room was not measured, or none is drawn square.
func (r *Room) Square() (corners []plan.Point, ok bool) {
	if !r.Measured() {
		return nil, false
	}
	n := len(r.Tape.Drawn)
	var measures []survey.Measure
	for _, l := range survey.Leans(r.Tape.Drawn, r.Tape.Drawn) {
		deg := math.Round(survey.InsideDeg(r.Tape.Drawn, l.Corner))
		measures = append(measures, survey.Measure{Kind: survey.Angle, At: l.Corner, From: (l.Corner + 1) % n, To: (l.Corner + n - 1) % n,
			Value: deg, Tolerance: surelyDeg})
	}
	if len(measures) == 0 {
		return nil, false
	}
	for _, m := range r.measures() {
		if m.Kind == survey.Distance && (m.To == (m.From+1)%n || m.From == (m.To+1)%n) {
			measures = append(measures, m)
		}
	}
	f, err := survey.Work(r.Tape.Drawn, measures)
	return f.Corners, err == nil
}

// surelyDeg is how well an angle is known that is meant: so well that no tape moves it.
const surelyDeg = 1e-4

// ZeroAtEnd tells whether a wall was measured with the tape's zero at its end corner: what is in it is then
// measured from there, and stays so far from there.
func (r *Room) ZeroAtEnd(wall int) bool {
	n := len(r.Outline)
	for _, t := range r.Tape.Lengths {
		if t.From == wall && t.To == (wall+1)%n {
			return false
		}
		if t.To == wall && t.From == (wall+1)%n {
			return true
		}
	}
	return false
}

// TapedAlong is the measured length of a wall, by the wall's index, as its index in the list; false where the wall
// was not measured.
func (r *Room) TapedAlong(wall int) (i int, ok bool) {
	return r.TapedBetween(wall, (wall+1)%len(r.Outline))
}

// TapedBetween is the measured length between two corners, as its index in the list; false where that was not measured.
func (r *Room) TapedBetween(a, b int) (i int, ok bool) {
	i = slices.IndexFunc(r.Tape.Lengths, func(t Taped) bool { return t.From == a && t.To == b || t.To == a && t.From == b })
	return i, i >= 0
}

// tapeLengthList is the list of lengths from corner to corner.
func tapeLengthList() List {
	l := listed(TapeLengthsKey, mostTapedLength, func(j *Job) *[]Taped { return &j.Room.Tape.Lengths }, usualTaped,
		corner("from", func(t *Taped) *int { return &t.From }),
		corner("to", func(t *Taped) *int { return &t.To }),
		along("lengthMM", leastTapedMM, farthestMM, 1, func(t *Taped) *float64 { return &t.LengthMM }),
		lessUsed(length("toleranceMM", 0, mostOffMM, 0.5, func(t *Taped) *float64 { return &t.ToleranceMM })))
	l.named = func(j *Job, i int) message.Message { return j.Room.TapedName(i) }
	l.said = func(j *Job) []message.Message {
		taken, _ := j.Room.Taken()
		return taken.Told()
	}
	return l.ofTape()
}

// tapeAngleList is the list of angles.
func tapeAngleList() List {
	l := listed(TapeAnglesKey, mostCorners, func(j *Job) *[]TapedAngle { return &j.Room.Tape.Angles }, usualTapedAngle,
		corner("corner", func(a *TapedAngle) *int { return &a.Corner }),
		number("deg", unit.Angle, leastTapedDeg, mostTapedDeg, 0.5, func(a *TapedAngle) *float64 { return &a.Deg }),
		lessUsed(number("toleranceDeg", unit.Angle, 0, mostOffDeg, 0.5, func(a *TapedAngle) *float64 { return &a.ToleranceDeg })))
	l.named = func(j *Job, i int) message.Message {
		return message.Of("tape.angle", message.AtCorner("corner", j.Room.Corner(j.Room.Tape.Angles[i].Corner)))
	}
	return l.ofTape()
}

// ofTape is a list whose first thing has the room count as measured, of the shape that it has, and whose last one
// leaves its corners where they are, as stated.
func (l List) ofTape() List {
	add, remove := l.add, l.remove
	l.add = func(j *Job) {
		if add(j); !j.Room.Measured() {
			j.Room.Tape.Drawn = slices.Clone(j.Room.Outline)
		}
	}
	l.remove = func(j *Job, i int) {
		if remove(j, i); len(j.Room.Tape.Lengths)+len(j.Room.Tape.Angles) == 0 {
			j.Room.Tape = Tape{}
		}
	}
	return l
}

// usualTaped is the first wall, in the order of their letters, that was not measured, as long as it is now; where all
// were, the first distance across the room that was not.
func usualTaped(j *Job) Taped {
	r := &j.Room
	n := len(r.Outline)
	was := func(from, to int) bool {
		_, ok := r.TapedBetween(from, to)
		return ok
	}
	taped := func(from, to int) Taped {
		return Taped{From: from, To: to, LengthMM: math.Max(leastTapedMM, r.Outline[to].Sub(r.Outline[from]).Len())}
	}
	for _, wall := range r.InOrder() {
		if next := (wall + 1) % n; !was(wall, next) {
			return taped(wall, next)
		}
	}
	for i := range n {
		for k := range i {
			if !was(k, i) {
				return taped(k, i)
			}
		}
	}
	return taped(0, 1)
}

// usualTapedAngle is that of the first corner whose angle was not measured, as it is now.
func usualTapedAngle(j *Job) TapedAngle {
	r := &j.Room
	at := 0
	for at < len(r.Outline)-1 && slices.ContainsFunc(r.Tape.Angles, func(a TapedAngle) bool { return a.Corner == at }) {
		at++
	}
	return TapedAngle{Corner: at, Deg: math.Max(leastTapedDeg, math.Min(mostTapedDeg, survey.InsideDeg(r.Outline, at)))}
}

// TapedName is what a measured length is called: by its wall, or by the corners it lies between.
func (r *Room) TapedName(i int) message.Message {
	t, n := r.Tape.Lengths[i], len(r.Outline)
	switch {
	case t.To == (t.From+1)%n:
		return message.Of("tape.wall", message.Wall("wall", r.Letter(t.From)))
	case t.From == (t.To+1)%n:
		return message.Of("tape.wall", message.Wall("wall", r.Letter(t.To)))
	}
	return message.Of("tape.across", message.AtCorner("from", r.Corner(t.From)), message.AtCorner("to", r.Corner(t.To)))
}

// tape checks what was measured of the room: that it says something, and that the corners are what it says.
func (v *validator) tape(r *Room) {
	t := &r.Tape
	if !r.Measured() {
		if len(t.Lengths)+len(t.Angles) > 0 {
			v.add(TapeKey, "problem.tape-not-drawn")
		}
		return
	}
	sound := len(v.problems) == 0
	for i, m := range t.Lengths {
		if m.From == m.To {
			v.add(Nth(TapeLengthsKey, i)+".to", "problem.tape-one-corner")
			sound = false
		}
	}
	if n := len(t.Drawn); n < leastCorners || n > mostCorners || n != len(r.Outline) {
		v.add(TapeKey, "problem.corners", message.No("least", leastCorners), message.No("most", mostCorners), message.No("is", n))
		return
	}
	for i, p := range t.Drawn {
		sound = v.point(fmt.Sprintf("%s.drawn[%d]", TapeKey, i), p) && sound
	}
	if _, _, crosses := plan.Ring(t.Drawn).CrossingEdges(); sound && (crosses || math.Abs(plan.Ring(t.Drawn).SignedArea()) < leastFloorMM2) {
		v.add(TapeKey, "problem.tape-not-drawn")
		return
	}
	if !sound || survey.Settled(t.Drawn, r.measures(), r.Outline) {
		return
	}
	f, problem := r.Survey()
	switch {
	case problem != nil:
		v.problems = append(v.problems, *problem)
	case !alike(f.Corners, r.Outline):
		v.add(OutlineKey, CornersAreMeasured)
	}
}

// alike tells whether corners are the same to what nobody measures.
func alike(a, b []plan.Point) bool {
	return slices.EqualFunc(a, b, func(p, q plan.Point) bool { return p.Sub(q).Len() < 1000*plan.HairMM })
}
