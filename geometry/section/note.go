package section

import (
	"math"
	"slices"
	"strings"

	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Note names the layers that a line through them meets: one text for each, the outermost
// first, led out beyond that.
type Note struct {
	// Places are where the line may run, the best first.
	Places []NotePlace
}

// NotePlace is a line through layers, with a text and a point in each: what is thicker
// elsewhere has other texts there.
type NotePlace struct {
	Texts  []message.Message
	Points []plan.Point
}

// noteLevelMM is how far over the tile at the drain the layers of a wall are named.
const noteLevelMM = 60

// notes names the layers of the shower's floor, of the ramps, of the room's floor and of the
// walls.
func (d *Drawing) notes(r geometry.Result, stage buildup.Stage) {
	d.floorStretches(&r, func(zone int, stretches []plan.Interval) { d.floorNote(r, stage, stretches, zone) })
	for _, w := range r.Layout.Walls {
		if math.Abs(w.Outward.Dot(planOf(d.Cut.Along))) > 1-plan.HairMM {
			d.wallNote(r, w)
		}
	}
	d.timberNotes(r)
}

// floorStretches tells of the zones of the floor on the cut: the shower's, ramps, the room's.
func (d *Drawing) floorStretches(r *geometry.Result, tell func(zone int, stretches []plan.Interval)) {
	tell(0, d.along(r.Layout.OpenFloor))
	for i, z := range r.Floor.Zones {
		if z.Edge >= 0 {
			tell(i, d.along(z.Region))
		}
	}
	if r.Settled.Former.Fall != job.FallRoom {
		tell(len(r.Floor.Zones)-1, d.along(r.Layout.Rest))
	}
}

// leastNoteMM is the shortest stretch of a floor whose layers are told.
const leastNoteMM = 60

// floorNote names the layers of a zone of the floor along the longest of its stretches on the
// cut, wherever the cut goes through the most of them: what is sawn out or cut away at a
// place is not named there.
func (d *Drawing) floorNote(r geometry.Result, stage buildup.Stage, stretches []plan.Interval, zone int) {
	var longest plan.Interval
	for _, iv := range stretches {
		if iv.To-iv.From > longest.To-longest.From {
			longest = iv
		}
	}
	if longest.To-longest.From < leastNoteMM {
		return
	}
	var all *stretch
	if s, ok := d.stretchOf(&r, longest, zone, stage); ok {
		all = &s
	}
	var n Note
	var most []message.ID
	for _, share := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.05, 0.95} {
		x := longest.From + share*(longest.To-longest.From)
		if r.Floor.ZoneAt(d.planAt(x)) != zone {
			continue
		}
		place, names := d.layersAt(r.Floor.At(d.planAt(x)), stage, x, all)
		switch {
		case len(names) > len(most):
			n.Places, most = []NotePlace{place}, names
		case len(names) > 0 && slices.Equal(names, most):
			n.Places = append(n.Places, place)
		}
	}
	if len(n.Places) > 0 {
		d.Notes = append(d.Notes, n)
	}
}

// layersAt names the layers of a stack that the cut goes through at a distance along it, from the
// top; those of the stretch that it lies in, where that is told, have their ends told.
func (d *Drawing) layersAt(stack buildup.Stack, stage buildup.Stage, x float64, all *stretch) (place NotePlace, names []message.ID) {
	through, layers := d.column(x), laid(stack, stage)
	chain := layers.Chain()
	if all != nil && !all.has(layers) {
		all = nil
	}
	for i := range slices.Backward(layers) {
		c := &layers[i]
		if !through.cut(c) {
			continue
		}
		place.Texts = append(place.Texts, layerText(c, chain.Part("thickness", i), all, i))
		place.Points, names = append(place.Points, plan.Point{x, (c.BottomMM + c.TopMM) / 2}), append(names, c.Name)
	}
	if floor := &stack[0]; through.structure(floor.TopMM) {
		place.Texts = append(place.Texts, message.Of(floor.Name))
		place.Points, names = append(place.Points, plan.Point{x, floor.TopMM - intoMM}), append(names, floor.Name)
	}
	return place, names
}

// wallNote names the layers on a wall that stands square to the cut.
func (d *Drawing) wallNote(r geometry.Result, w layout.Wall) {
	type face struct {
		name message.Message
		at   plan.Interval
	}
	level := r.Heights.TileMM + noteLevelMM
	var faces []face
	for _, a := range d.Areas {
		if p, ok := partOf(r.Assembly, a.PartID); !ok || p.Wall != w.Index+1 || !strings.HasPrefix(p.From, "layers.wall.") {
			continue
		}
		for _, iv := range a.Region.Clip(plan.Point{0, level}, plan.Point{1, 0}) {
			faces = append(faces, face{a.Name, iv})
		}
	}
	if len(faces) == 0 {
		return
	}
	// From the room to the wall.
	out := w.Outward.Dot(planOf(d.Cut.Along))
	slices.SortFunc(faces, func(a, b face) int {
		if (a.at.From-b.at.From)*out < 0 {
			return -1
		}
		return 1
	})
	var n Note
	var texts []message.Message
	for _, f := range faces {
		texts = append(texts, message.Of("note.layer", message.In("layer", f.name), message.Layer("thickness", f.at.To-f.at.From)))
	}
	for _, up := range [...]float64{0, 30, 60} {
		var points []plan.Point
		for _, f := range faces {
			points = append(points, plan.Point{(f.at.From + f.at.To) / 2, level + up})
		}
		n.Places = append(n.Places, NotePlace{texts, points})
	}
	d.Notes = append(d.Notes, n)
}

func partOf(a assembly.Assembly, id string) (assembly.Part, bool) {
	for _, p := range a.Parts {
		if p.ID == id {
			return p, true
		}
	}
	return assembly.Part{}, false
}

// levelNote names the floor beside the drain that is level, which is hatched in plan.
func (d *Drawing) levelNote(r geometry.Result) {
	level := r.Water.Level
	if level.AreaMM2 <= leastLevelMM2 {
		return
	}
	d.noteIn(level.Region, message.Of("note.level-floor"), 0.5, 0.1, 0.9)
}

// noteIn writes a text in a region: in the middle of a part of it that is in it, else in the middle
// of a stretch across it, at shares of its depth.
func (d *Drawing) noteIn(region plan.Region, text message.Message, shares ...float64) {
	var n Note
	put := func(at plan.Point) {
		n.Places = append(n.Places, NotePlace{[]message.Message{text}, []plan.Point{at}})
	}
	for _, p := range region {
		if at := (plan.Region{p}).Centroid(); region.Contains(at, 0) {
			put(at)
		}
	}
	for _, at := range middlesAcross(region, shares...) {
		put(at)
	}
	if len(n.Places) > 0 {
		d.Notes = append(d.Notes, n)
	}
}

// middlesAcross are the middles of the stretches across a region, at shares of its depth.
func middlesAcross(region plan.Region, shares ...float64) (out []plan.Point) {
	low, high, _ := region.Bounds()
	for _, share := range shares {
		y := low.Y() + share*(high.Y()-low.Y())
		for _, iv := range region.Clip(plan.Point{0, y}, plan.Point{1, 0}) {
			out = append(out, plan.Point{(iv.From + iv.To) / 2, y})
		}
	}
	return out
}

// sealingInPlan draws how far the tanking reaches, the water stops along panes and the movement joints across the floor,
// and says how much of the floor is heated.
func (d *Drawing) sealingInPlan(r geometry.Result) {
	l := r.Layout
	d.fieldJoints(r)
	if r.Settled.ScreenStopMM() > 0 {
		for i := range l.Screens {
			if of := r.Settled.Shower.Screens[l.Screens[i].Index]; of.Kind == job.ScreenPane {
				for _, p := range l.Screens[i].Stop(of.ThicknessMM) {
					d.Lines = append(d.Lines, Line{closed(p.Outer), Thin, false, "water-stop"})
				}
			}
		}
	}
	if _, all := r.Settled.TankedBeyondMM(); !all && r.Settled.RoomFinished() {
		for _, p := range l.Untanked {
			d.Lines = append(d.Lines, Line{closed(p.Outer), Thin, true, "tanking"})
		}
	}
	if len(l.Heated) > 0 {
		d.noteIn(l.Heated, message.Of("note.heated", message.Arg{Name: "area", Value: message.Area{MM2: l.Heated.Area()}}), 0.5, 0.25, 0.75)
	}
}

// fieldJoints draws the movement joints across the floor, and says how large the largest
// field is that they leave.
func (d *Drawing) fieldJoints(r geometry.Result) {
	joints := r.Sealing.Joints
	if len(joints) == 0 {
		return
	}
	var largest layout.Field
	for _, f := range r.Sealing.Fields {
		if f.WidthMM*f.DepthMM > largest.WidthMM*largest.DepthMM {
			largest = f
		}
	}
	var n Note
	texts := []message.Message{message.Of("note.field-joints", message.N("n", len(joints)), message.Along("width", largest.WidthMM), message.Along("depth", largest.DepthMM))}
	for _, x := range joints {
		d.Lines = append(d.Lines, Line{[]plan.Point{x.A, x.B}, Medium, true, "field-joint"})
		for _, share := range [...]float64{0.5, 0.25, 0.75} {
			n.Places = append(n.Places, NotePlace{texts, []plan.Point{x.A.Add(x.B.Sub(x.A).Mul(share))}})
		}
	}
	d.Notes = append(d.Notes, n)
}
