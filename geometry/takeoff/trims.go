package takeoff

import (
	"math"
	"slices"

	"underfall/geometry/assembly"
	"underfall/geometry/guide"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// trims are profiles at tile's ends, and the angles of water stops.
func (b *builder) trims() {
	b.tileTrims()
	b.stops()
}

// bars is a line of profiles cut from their usual length.
func (b *builder) bars(l Line, item guide.Item, piecesMM []float64) {
	p, ok := b.t.Pack(item, b.j.Region, "")
	if !ok || len(piecesMM) == 0 {
		return
	}
	l.Source = p.Source
	l, _ = l.cut(piecesMM, p.Holds)
	b.add(l)
}

// tileTrims are along upright ends of wall tile that no wall stops, corners of walls that stand out,
// the top of wall tile under the ceiling, the step at open edges, and doorways.
func (b *builder) tileTrims() {
	head := b.h.TileMM + b.j.Layers.WallTiledToMM
	var walls, floor []float64
	upright := func(p plan.Point) {
		walls = append(walls, math.Max(0, math.Min(head, b.l.CeilingAt(p))-b.h.ShowerAt(b.l, p)))
	}
	thick := b.j.Layers.Wall.Tile.ThicknessMM
	for i := range b.l.Walls {
		w, next := &b.l.Walls[i], &b.l.Walls[(i+1)%len(b.l.Walls)]
		for _, iv := range b.l.Finished(b.j, w) {
			for _, at := range [2]float64{iv.From, iv.To} {
				if at > nearMM && at < w.LengthMM-nearMM {
					upright(w.At(at))
				}
			}
			if head < b.l.CeilingAt(w.At((iv.From+iv.To)/2)) {
				walls = append(walls, iv.To-iv.From)
			}
			if iv.To > w.LengthMM-nearMM && next.Along.Dot(w.Outward) > plan.HairMM {
				upright(w.B)
			}
		}
	}
	if thick > 0 {
		b.bars(Line{Group: Trims, Item: message.Of("order.trim-wall", message.Layer("thick", thick)), How: []message.Message{message.Of("order.how.trim-wall")}}, guide.TileTrim, positive(walls))
	}
	for _, e := range b.h.Edges(b.j, b.l) {
		long := 0.0 // of what has a face, which a trim ends; one length round its creases
		for _, x := range e.Faces() {
			long += x.Edge.LengthMM()
		}
		floor = append(floor, long)
	}
	b.bars(Line{Group: Trims, Item: message.Of("order.trim-step", message.Layer("thick", b.j.Layers.Shower.Tile.ThicknessMM)),
		How: []message.Message{message.Of("order.how.trim-step")}}, guide.TileTrim, positive(floor))
	if b.j.RoomFinished() && b.j.DoorStopMM() == 0 {
		var doors []float64
		for _, d := range b.j.Room.Doorways {
			doors = append(doors, d.WidthMM)
		}
		b.bars(Line{Group: Trims, Item: message.Of("order.trim-door"), How: []message.Message{message.Of("order.how.trim-door")}}, guide.TileTrim, doors)
	}
}

// positive are the lengths that are any.
func positive(mm []float64) (out []float64) {
	for _, x := range mm {
		if x > unitMM {
			out = append(out, x)
		}
	}
	return out
}

// stops are the angles of water stops, at doorways and along fixed panes: as long as their standing legs.
func (b *builder) stops() {
	doors, screens := b.take(named("door-stop-")), b.take(named("screen-stop-"))
	var pieces []float64
	add := func(of plan.Region) {
		for _, poly := range of {
			pieces = append(pieces, longestSide(poly.Outer))
		}
	}
	for _, p := range doors {
		for _, r := range regions(p.Shape) {
			add(r)
		}
	}
	for _, p := range screens {
		add(regions(p.Shape)[0])
	}
	parts := slices.Concat(doors, screens)
	b.bars(Line{Group: Trims, Item: message.Of("order.stop-angle"), Bodies: ids(parts), How: []message.Message{message.Of("order.how.stop")}}, guide.StopAngle, positive(pieces))
}

// longestSide is that of a ring.
func longestSide(r plan.Ring) (mm float64) {
	for i, p := range r {
		mm = math.Max(mm, r[(i+1)%len(r)].Sub(p).Len())
	}
	return mm
}

// ofTrimming tells whether a body is of the timber that is put in where joists are cut out.
func ofTrimming(p *assembly.Part) bool { return named("second-joist-", "trimmer-")(p) }
