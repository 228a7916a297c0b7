package geometry

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Figure is one of the numbers everybody asks for: what it is of, the number, and what it
// comes of.
type Figure struct{ Of, Value, Line message.Message }

// Figures are the step, the raise and the way out, as far as the job has them; none of one
// that could not be worked out.
func (r Result) Figures() (out []Figure) {
	if len(r.Problems) > 0 {
		return nil
	}
	if f, ok := r.stepFigure(); ok {
		out = append(out, f)
	}
	raise := r.Heights.BaseTopMM - r.Heights.FloorHighMM
	out = append(out, Figure{message.Of("figure.raise"), message.Of("figure.mm", message.MM("mm", raise)), message.Of("figure.raise-line")})
	if run := &r.Heights.Run; len(run.Pieces) > 0 {
		level := message.Of("figure.level", message.At("level", run.InvertAt(run.LevelEndMM(&r.Settled.Waste))))
		out = append(out, Figure{message.Of("figure.way-out"), level, r.wayLine()})
	}
	return out
}

// stepFigure is the step at the way in; of a floor without an open edge, at the doorway.
func (r Result) stepFigure() (f Figure, ok bool) {
	step := WorstStep(r.Steps(), rule.OpenEdge)
	f.Of = message.Of("figure.step-at-way-in")
	if step == nil {
		step = WorstStep(r.Steps(), rule.Doorway)
		f.Of = message.Of("figure.step-at-doorway")
	}
	if step == nil {
		return f, false
	}
	f.Value = message.Of("figure.mm", message.MM("mm", math.Abs(step.MM)))
	if step.Kind == Flush {
		f.Value = message.Of("figure.flush")
	}
	rods, steps := r.Rods()
	for _, s := range steps {
		from, to := rods[s.From], rods[s.To]
		if s.MM == step.MM {
			f.Line = message.Of("figure.step-line", message.At("low", from.LevelMM), message.At("high", to.LevelMM))
		}
	}
	return f, true
}

// wayLine says in two or three words where the pipe leaves.
func (r Result) wayLine() message.Message {
	e := r.Settled.Waste.Exit
	if e.Kind == job.ExitWall {
		return message.Of("figure.through-wall", r.Settled.Room.Wall("wall", e.Wall))
	}
	return message.Of(message.ID("choice.exit." + string(e.Kind)))
}
