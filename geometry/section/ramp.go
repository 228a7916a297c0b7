package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// cutRamp is a stretch of a ramp on a cut and how it falls along it, rise over run.
type cutRamp struct{ FromMM, ToMM, fall float64 }

// ramps are the stretches of ramps on the cut that fall along it.
func (d *Drawing) ramps(r geometry.Result) []cutRamp {
	const leastMM = 5
	var out []cutRamp
	for _, z := range r.Floor.Zones {
		if z.Edge < 0 {
			continue
		}
		top := z.Top()[0]
		fall := math.Abs(plan.Point{top.SlopeX, top.SlopeY}.Dot(planOf(d.Cut.Along)))
		for _, iv := range d.along(z.Region) {
			if iv.To-iv.From > leastMM && fall >= levelSlope {
				out = append(out, cutRamp{iv.From, iv.To, fall})
			}
		}
	}
	return out
}

// besideRamps are stretches on the cut without what of them ramps take.
func (d *Drawing) besideRamps(r geometry.Result, stretches []plan.Interval) []plan.Interval {
	for _, z := range r.Floor.Zones {
		if z.Edge >= 0 {
			stretches = plan.Without(stretches, d.along(z.Region))
		}
	}
	return stretches
}

// rampDimensions writes beside the ramp at each open edge how long it is on plan, straight
// out from where it climbs most; as far as it lies in the room. How it falls stands at its arrows.
func (d *Drawing) rampDimensions(r geometry.Result) {
	h, l, j := &r.Heights, &r.Layout, &r.Settled
	for i := range l.OpenEdges() {
		ramp, ok := h.RampAt(j, l, i)
		if !ok {
			continue
		}
		key, hangsOn := "", []string{"room.rampRunMM", "shower"}
		if math.Abs(j.Room.RampRunMM-ramp.RunMM) < 0.05 {
			key, hangsOn = "room.rampRunMM", nil
		}
		down := ramp.Foot.Sub(ramp.From).Normalize()
		to := ramp.Foot
		for _, iv := range l.Room.Clip(ramp.From, down) {
			if iv.From < 1 && iv.To > 1 {
				to = ramp.From.Add(down.Mul(math.Min(ramp.RunMM, iv.To)))
			}
		}
		text := message.Of("dimension.ramp", message.Along("length", ramp.RunMM))
		d.Dimensions = append(d.Dimensions, Dimension{From: ramp.From, To: to, Text: text,
			Row: 1, Side: plan.Left(down), Key: key, HangsOn: hangsOn})
	}
}
