package geometry

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// Figure is one of the numbers everybody asks for: what it is of, the number, and what it
// comes of.
type Figure struct {
	Of, Value, Line message.Message
	// At is where it is to be seen, at the run where AlongRun, at the step where Across.
	At       mgl64.Vec3
	AlongRun bool
	// Across is the open edge or the doorway whose step it is; the zero subject of any other.
	Across rule.Subject
}

// Figures are the step, the raise and the way out, as far as the job has them; none of one
// that could not be worked out.
func (r Result) Figures() (out []Figure) {
	if len(r.Problems) > 0 {
		return nil
	}
	if f, ok := r.stepFigure(); ok {
		out = append(out, f)
	}
	of, rise := message.Of("figure.raise"), r.Heights.RiseTo(r.Heights.BaseTopMM)
	if rise.ToMM < rise.FromMM {
		of = message.Of("figure.let-down")
		rise.FromMM, rise.ToMM = rise.ToMM, rise.FromMM
	}
	out = append(out, Figure{Of: of, Value: message.Of("figure.mm", message.Arg{Name: "mm", Value: rise}),
		Line: message.Of("figure.raise-line"), At: r.rowAt(buildup.BaseTop, r.Heights.BaseTopMM)})
	if run := &r.Heights.Run; len(run.Pieces) > 0 {
		level := message.Of("figure.level", message.At("level", r.WayOutMM()))
		out = append(out, Figure{Of: message.Of("figure.way-out"), Value: level, Line: r.wayLine(),
			At: r.rowAt(buildup.ExitInvert, run.InvertAt(run.ExitAtMM)), AlongRun: true})
	}
	return out
}

// WayOutMM is the level that the way out is told at: as the schedule has it, where a wall is bored, or in it where a stack stands; of a
// run through no wall where it ends.
func (r Result) WayOutMM() float64 {
	run := &r.Heights.Run
	if run.Wall > 0 {
		return run.InvertAt(run.ExitAtMM)
	}
	return run.InvertAt(run.LevelEndMM(&r.Settled.Waste))
}

// stepFigure is the step at the way in; of a floor without an open edge, at the doorway.
func (r Result) stepFigure() (f Figure, ok bool) {
	step := r.WayIn()
	f.Of = message.Of("figure.step-at-way-in")
	if step == nil {
		step = WorstStep(r.Steps(), rule.Doorway)
		f.Of = message.Of("figure.step-at-doorway")
	}
	if step == nil {
		return f, false
	}
	at, _, _ := r.StepPlace(step.Where)
	f.At, f.Across = at.Vec3(r.Floor.FinishedMM(at)), step.Where
	f.Value = message.Of("figure.mm", step.High("mm"))
	if step.Kind == Flush {
		f.Value = message.Of("figure.flush")
	}
	if f.Line = r.offFlush(*step); !f.Line.IsZero() {
		return f, true
	}
	rods, steps := r.Rods()
	for _, s := range steps {
		// The floor it is over; the other follows.
		if from := rods[s.From]; s.MM == step.MM {
			f.Line = message.Of(step.line(), message.In("where", message.Of(from.Of.Name())), message.At("level", from.LevelMM))
		}
	}
	return f, true
}

// line is the id of what says of a step where it leads from, and whether up or down.
func (s Step) line() message.ID {
	switch {
	case s.Kind == Flush:
		return "figure.step-line"
	case s.MM < 0:
		return "figure.step-line-down"
	}
	return "figure.step-line-up"
}

// DoorStep is how high one steps at a doorway.
type DoorStep struct {
	Step
	// Assumed tells that how high the floor beyond lies is.
	Assumed bool
}

// DoorSteps are those at the doorways, without one where nobody knows how high the floor beyond lies.
func (r Result) DoorSteps() (out []DoorStep) {
	if len(r.Problems) > 0 {
		return nil
	}
	for _, s := range r.Steps() {
		if s.Where.Of != rule.Doorway {
			continue
		}
		open := r.Settled.BeyondOpen(s.Where.Number - 1)
		assumed := open && r.Settled.StandingOf(job.Nth(job.DoorwaysKey, s.Where.Number-1)+".neighbourFFLMM") == job.Assumed
		if !open || assumed {
			out = append(out, DoorStep{s, assumed})
		}
	}
	return out
}

// Line says how high it is, and at which doorway.
func (d DoorStep) Line() message.Message {
	id := message.ID("figure.door-up")
	switch {
	case d.Kind == Flush:
		id = "figure.door-flush"
	case d.MM < 0:
		id = "figure.door-down"
	case d.OverStop:
		id = "figure.door-stop"
	}
	return d.told(message.Of(id, message.No("n", d.Where.Number), d.High("mm")))
}

// Is says how high it is where the doorway is named beside it.
func (d DoorStep) Is() message.Message {
	id := message.ID("figure.flush-up")
	switch {
	case d.Kind == Flush:
		return d.told(message.Of("figure.flush"))
	case d.MM < 0:
		id = "figure.flush-down"
	case d.OverStop:
		id = "figure.stop-up"
	}
	return d.told(message.Of(id, d.High("mm")))
}

// told is what is said of it, as assumed where it is.
func (d DoorStep) told(line message.Message) message.Message {
	if d.Assumed {
		return message.Of("figure.door-assumed", message.In("line", line))
	}
	return line
}

// DoorLines say how high one steps at each doorway; nothing of the one that is the first of the figures.
func (r Result) DoorLines() (out []message.Message) {
	first, _ := r.stepFigure()
	for _, d := range r.DoorSteps() {
		if d.Where != first.Across {
			out = append(out, d.Line())
		}
	}
	return out
}

// offFlush says how far a step that counts as flush is off it; nothing where none of that is shown.
func (r Result) offFlush(s Step) message.Message {
	switch mm := unit.RiseRead(s.Rise, r.Settled.Units); {
	case s.Kind != Flush || mm == 0:
		return message.Message{}
	case mm < 0:
		return message.Of("figure.flush-down", s.High("mm"))
	}
	return message.Of("figure.flush-up", s.High("mm"))
}

// rowAt is where a row of the schedule is taken, of several of its kind the one whose value is nearest;
// the room's origin where there is none.
func (r Result) rowAt(of buildup.RowOf, value float64) (at mgl64.Vec3) {
	nearest := math.Inf(1)
	for _, row := range r.Schedule {
		if off := math.Abs(row.Value - value); row.ID.Of == of && off < nearest {
			at, nearest = row.At, off
		}
	}
	return at
}

// wayLine says in a few words where the pipe leaves, and the level that is stated of its end: the figure is where it goes
// through the wall, or how it came out.
func (r Result) wayLine() message.Message {
	e := r.Settled.Waste.Exit
	line := message.Of(message.ID("choice.exit." + string(e.Kind)))
	if e.Kind == job.ExitWall {
		line = message.Of("figure.through-wall", r.Settled.Room.Wall("wall", e.Wall))
	}
	stated, ok := r.Stated.Waste.Exit.Level.InvertMM()
	if !ok || r.Stated.StandingOf(job.ExitLevelKey) == job.Assumed {
		return line
	}
	id := message.ID("figure.way-stated")
	if r.Stated.Waste.Exit.Level.Kind() == job.ExitNotBelow {
		id = "figure.way-least"
	}
	return message.Of(id, message.In("line", line), message.At("level", stated))
}
