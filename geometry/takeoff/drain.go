package takeoff

import (
	"math"

	"underfall/geometry/assembly"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// one is a line of one thing.
func one(g Group, item message.Message, bodies []*assembly.Part, how ...message.Message) Line {
	return Line{Group: g, Item: item, Needed: count(1), Bodies: ids(bodies), How: how}
}

// count is so many of something.
func count(n int) guide.Amount { return guide.Amount{Measure: guide.Count, Value: float64(n)} }

// drain is the drain with its trap, its cover, and a pump.
func (b *builder) drain() {
	d := &b.j.Drain
	name := message.Of("order.drain-point-plain")
	if b.j.Former.Fall.Linear() {
		name = message.Of("order.drain-linear-plain")
	}
	if p := b.j.Parts.Drain; p != nil {
		name = part.Name(*p)
	}
	outlet := message.Nominal("outlet", d.OutletNominalMM)
	if s := b.j.Parts.Pipe; s != nil {
		if z, ok := s.Size(d.OutletNominalMM); ok {
			outlet = message.In("outlet", z.Name())
		}
	}
	item := message.Of("order.drain-point", message.In("name", name), message.MM("side", d.WidthMM), outlet)
	if b.j.Former.Fall.Linear() {
		item = b.linear(name, outlet)
	}
	b.add(one(Drain, item, b.take(func(p *assembly.Part) bool { return p.ID == "channel" || p.ID == "trap" || p.ID == "run-joint" }), message.Of("order.how.drain")))
	cover := message.Of("order.cover")
	if b.j.Style.Cover == job.CoverTileInsert {
		cover = message.Of("order.cover-tile")
	}
	b.add(one(Drain, cover, b.take(func(p *assembly.Part) bool { return p.ID == "cover" })))
	if pump := b.take(func(p *assembly.Part) bool { return p.ID == "pump" }); len(pump) > 0 {
		b.add(one(Drain, message.Of("order.pump", message.Arg{Name: "flow", Value: message.Flow{LPS: b.j.Waste.Pump.FlowLPS}}), pump))
	}
	if sleeve := b.take(func(p *assembly.Part) bool { return p.ID == "sleeve" }); len(sleeve) > 0 || b.r.Sealing.SleeveMM > 0 {
		b.add(one(Fittings, message.Of("order.sleeve", message.MM("long", b.r.Sealing.SleeveMM)), sleeve, message.Of("order.how.sleeve", message.Wall("wall", b.r.Sealing.SleeveWall))))
	}
	if flashing := b.of(material.DampProof); len(flashing) > 0 {
		b.add(one(Sealing, message.Of("order.flashing"), flashing, message.Of("order.how.sleeve", message.Wall("wall", b.r.Sealing.SleeveWall))))
	}
}

// middleMM is within which an outlet lies in the middle of a drain. Common practice, no source.
const middleMM = 5

// linear is a linear drain with where its outlet lies: to which side of its middle as it is seen from the shower, and how far from the
// nearer end. Drains with an outlet in the middle are another thing to buy.
func (b *builder) linear(name message.Message, outlet message.Arg) message.Message {
	long := b.j.DrainLengthMM()
	in, length := message.In("name", name), message.MM("length", long)
	along := b.l.TrapCentre.Sub(b.l.DrainCentre).Dot(b.l.DrainAlong)
	if math.Abs(along) <= middleMM {
		return message.Of("order.drain-linear", in, length, outlet)
	}
	off, end := message.MM("off", math.Abs(along)), message.MM("end", long/2-math.Abs(along))
	// Right is to the right of the way to the drain's back.
	if right := plan.Left(b.l.DrainAlong).Dot(b.l.DrainEdge.Sub(b.l.DrainCentre)) < 0; right == (along > 0) {
		return message.Of("order.drain-linear-right", in, length, outlet, off, end)
	}
	return message.Of("order.drain-linear-left", in, length, outlet, off, end)
}

// holes are what closes the gap round the pipe where it goes out through a wall, or down through a floor of concrete.
func (b *builder) holes() {
	run := &b.h.Run
	if len(run.Pieces) == 0 {
		return
	}
	pipe := run.Outgoing()
	if core, ok := b.h.Core(b.j, b.l); ok {
		thick, hole := b.j.Room.Walls[core.Wall-1].ThicknessMM, b.r.Pack.CoreDrills.For(core.LeastMM)
		litres := math.Pi / 4 * (hole*hole - pipe.OutsideDiameterMM*pipe.OutsideDiameterMM) * thick / mm3InLitre
		b.add(one(Sealing, message.Of("order.wall-seal", message.MM("pipe", pipe.OutsideDiameterMM), message.MM("hole", hole)), nil,
			message.Of("order.how.wall-seal", message.Wall("wall", b.j.Room.Letter(core.Wall-1)), message.MM("thick", thick)),
			message.Of("order.how.gap", volume("volume", litres))))
	}
	if b.j.Waste.Exit.Kind == job.ExitFloor && b.j.Floor.Kind == job.FloorSlab {
		b.add(one(Sealing, message.Of("order.floor-seal", message.MM("pipe", pipe.OutsideDiameterMM),
			message.MM("hole", 2*assembly.DropHoleRadiusMM(run, b.j.Waste.HoleRoomMM))), nil, message.Of("order.how.floor-seal")))
	}
}
