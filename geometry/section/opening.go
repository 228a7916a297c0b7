package section

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// windowNames number the windows, each in its wall or before it.
func (d *Drawing) windowNames(r geometry.Result) {
	for i, o := range r.Settled.Room.Windows {
		w := &r.Layout.Walls[o.Wall]
		n := Name{Texts: []message.Message{message.Of("item.room.windows", message.No("n", i+1))}}
		for _, off := range [...]struct {
			share float64
			side  plan.Point
		}{{0.5, plan.Point{}}, {0, w.Outward.Mul(-1)}, {1, w.Outward}} {
			for _, share := range [...]float64{0.5, 0.3, 0.7, 0.1, 0.9} {
				at := w.At(o.OffsetMM + share*o.WidthMM).Add(w.Outward.Mul(off.share * w.ThicknessMM))
				n.Places = append(n.Places, NameAt{at, off.side})
			}
		}
		d.Names = append(d.Names, n)
	}
}

// headroomName writes how high it is, where people stand in the shower, from the finished floor
// to the ceiling: at its place where the ceiling slopes.
func (d *Drawing) headroomName(r geometry.Result) {
	least, ok := r.MeasurementOf("room.headroom", rule.Subject{Of: rule.TheShower})
	if !ok {
		return
	}
	l := &r.Layout
	n := Name{Texts: []message.Message{headroomText(r, least.Value)}, Small: true}
	at := planOf(least.At)
	if len(l.Ceiling) > 1 {
		n.Dot = true
		for _, side := range [...]plan.Point{l.ToRight, l.ToRight.Mul(-1), l.Into, l.Into.Mul(-1)} {
			n.Places = append(n.Places, NameAt{at, side})
		}
	} else {
		middle := l.Shower.Centroid()
		for _, aside := range [...]float64{300, -300, 200, -200, 400, -400} {
			for _, along := range [...]float64{0, 300, -300} {
				if p := middle.Add(l.Into.Mul(aside)).Add(l.ToRight.Mul(along)); l.FallArea.Contains(p, 0) {
					n.Places = append(n.Places, NameAt{At: p})
				}
			}
		}
	}
	d.Names = append(d.Names, n)
}

// drainLevel writes the finished tile at the drain, as the schedule has it.
func (d *Drawing) drainLevel(r geometry.Result) {
	i := slices.IndexFunc(r.Schedule, func(row buildup.Row) bool { return row.ID.Of == buildup.TileAtDrain })
	if i < 0 {
		return
	}
	row, l := &r.Schedule[i], &r.Layout
	level := message.At("level", row.Value)
	texts := []message.Message{message.Of("name.tile-at-drain", level), Mark{Of: MarkTile, LevelMM: row.Value}.Message()}
	n := Name{Texts: texts, First: true, Small: true, Dot: true}
	out := l.DrainEdge.Sub(l.DrainCentre)
	away, along := out.Normalize(), l.DrainAlong
	beside := func(at, side plan.Point) {
		n.Places = append(n.Places, NameAt{at, side}, NameAt{at, side.Add(plan.Left(side))}, NameAt{at, side.Sub(plan.Left(side))})
	}
	if r.Settled.Former.Fall.Linear() {
		// It has one level along its edge.
		half := r.Settled.DrainLengthMM() / 2
		for _, share := range [...]float64{0, 0.3, -0.3, 0.6, -0.6, 0.85, -0.85} {
			beside(l.DrainEdge.Add(along.Mul(share*half)), away)
		}
	} else {
		for _, side := range [...]plan.Point{away, along, along.Mul(-1), away.Mul(-1)} {
			beside(l.DrainCentre.Add(side.Mul(out.Len())), side)
		}
	}
	d.Names = append(d.Names, n)
}

// Doorways dimensions the walls that have doorways from corner to corner: where each begins and how wide it is, with the wall's own
// length outside of that.
func (d *Drawing) Doorways(r geometry.Result) {
	for i := range r.Layout.Walls {
		w := &r.Layout.Walls[i]
		at := []float64{0, w.LengthMM}
		for k := range r.Layout.Doors {
			if door := &r.Layout.Doors[k]; door.Wall.Index == w.Index {
				at = append(at, door.A.Sub(w.A).Dot(w.Along), door.B.Sub(w.A).Dot(w.Along))
			}
		}
		if len(at) == 2 {
			continue
		}
		slices.Sort(at)
		for k := range d.Dimensions {
			if o := &d.Dimensions[k]; o.Key == (edit.Side{Wall: w.Index}).Key() {
				o.Row++
			}
		}
		d.chainAlong(w, at, 1, [2]message.ID{"dimension.length", "dimension.length"})
	}
}
