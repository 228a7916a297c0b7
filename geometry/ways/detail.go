package ways

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/search"
	"underfall/geometry/unit"
)

// Raised is between which levels the base of the job that was searched comes: the structural floor's highest and its own.
type Raised struct{ FloorMM, TopMM float64 }

// RaisedOf is that of a result; nil of one that could not be worked out.
func RaisedOf(r geometry.Result) *Raised {
	if len(r.Problems) > 0 {
		return nil
	}
	return &Raised{r.Heights.FloorHighMM, r.Heights.BaseTopMM}
}

// asked says what a found run asks for: how high the base, beside what it is now, the pipe, and of what is counted that
// of which there is any.
func asked(a search.Alternative, now *Raised, u unit.System) []message.Message {
	raise := message.Rise{ToMM: a.RaiseMM}
	if now != nil {
		raise = message.Rise{FromMM: now.FloorMM, ToMM: now.FloorMM + a.RaiseMM} // as the answer tells it
	}
	id := message.ID("run.base-up")
	if a.RaiseMM < 0 {
		id = "run.base-down"
	}
	out := []message.Message{message.Of(id, message.Arg{Name: "raise", Value: raise})}
	if now != nil {
		out = append(out, against(raise.ToMM, now.TopMM, u))
	}
	if a.EdgeStepMM > plan.HairMM {
		out = append(out, message.Of("run.step", message.MM("step", a.EdgeStepMM)))
	}
	out = append(out, message.Of("run.pipe", message.Along("length", a.LengthMM), message.Slope("fall", a.Gradient)))
	if flat := flatOf(a); !flat.IsZero() {
		out = append(out, flat)
	}
	for _, of := range []struct {
		id message.ID
		n  int
	}{{"run.bends", a.Bends}, {"run.joists", a.JoistsCut}, {"run.advice", a.Advisories}} {
		if of.n > 0 {
			out = append(out, message.Of(of.id, message.N("n", of.n)))
		}
	}
	for _, u := range a.Unkept {
		out = append(out, message.Of("run.unkept", message.N("n", u.Cuts), message.In("heading", u.Rule.Heading())))
	}
	return out
}

// flatOf says what holds a run flatter than is usual; nothing where it is not, or nothing is known to.
func flatOf(a search.Alternative) message.Message {
	switch f := a.Flat; {
	case f == nil:
		return message.Message{}
	case f.Stops != nil:
		return message.Of("run.flat-stops", message.Slope("fall", f.Fall), message.In("heading", f.Stops.Heading()))
	case f.HigherMM >= sameHeightMM:
		return message.Of("run.flat-costs", message.Slope("fall", f.Fall), message.MM("higher", f.HigherMM))
	}
	return message.Message{}
}

// sameHeightMM is within what two heights are told as the same: half of the whole millimetre that heights are told in.
const sameHeightMM = 0.5

// against says how high a top is beside that of now; so that it adds up with both of them as they are told.
func against(topMM, nowMM float64, u unit.System) message.Message {
	rise := message.Rise{FromMM: nowMM, ToMM: topMM}
	mm := message.Arg{Name: "mm", Value: rise}
	switch read := unit.RiseRead(rise, u); {
	case read == 0 || math.Abs(rise.MM()) < sameHeightMM:
		return message.Of("run.as-high")
	case read < 0:
		return message.Of("run.lower", mm)
	}
	return message.Of("run.higher", mm)
}

// Detail says what a found run asks for, how that is beside the job that was searched, and where it differs from that.
func Detail(a search.Alternative, of job.Job, now *Raised) []message.Message {
	parts := append(asked(a, now, of.Units), message.Of("run.leaves-at", message.At("level", a.ExitInvertMM)))
	if stated, ok := of.Waste.Exit.Level.InvertMM(); ok && a.Job.Waste.Exit.Level.Kind() == job.ExitFree {
		parts = append(parts, message.Of("run.level-not-held", message.At("level", stated)))
	}
	if at := a.Job.Drain.TrapOffsetMM; at != of.Drain.TrapOffsetMM {
		parts = append(parts, trapPlace(at, of.Former.Fall))
	}
	if to := job.AngleDeg(a.Job.Drain.OutletTurnDeg); to != job.AngleDeg(of.Drain.OutletTurnDeg) {
		parts = append(parts, outletTo(to))
	}
	for _, f := range a.Job.Waste.Fittings {
		if f.Kind != job.FittingFallingPiece {
			parts = append(parts, message.Of("run.reducer", message.Nominal("size", f.NominalMM)))
		} else {
			parts = append(parts, message.Of("run.falling-piece", message.Slope("fall", f.Slope)))
		}
	}
	return parts
}

// trapPlace is a trap's place along its drain, as seen facing the back wall.
func trapPlace(offsetMM float64, fall job.FallKind) message.Message {
	far := message.Along("far", math.Abs(offsetMM))
	switch {
	case offsetMM == 0:
		return message.Of("run.trap-in-middle")
	case fall.Sideways() && offsetMM > 0:
		return message.Of("run.trap-to-front", far)
	case fall.Sideways():
		return message.Of("run.trap-to-back", far)
	case offsetMM > 0:
		return message.Of("run.trap-to-right", far)
	}
	return message.Of("run.trap-to-left", far)
}

// outletTo is where a trap's outlet is turned to.
func outletTo(deg float64) message.Message {
	switch deg {
	case 90:
		return message.Of("run.outlet-back")
	case 180:
		return message.Of("run.outlet-left")
	case 270:
		return message.Of("run.outlet-front")
	}
	return message.Of("run.outlet-right")
}
