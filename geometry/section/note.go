package section

import (
	"math"
	"slices"
	"strings"

	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Note names the layers that a line through them meets: one text for each, the outermost
// first, led out beyond that.
type Note struct {
	Texts []message.Message
	// Places are where the line may run, the best first: each has a point in every layer.
	Places [][]plan.Point
}

// noteLevelMM is how far over the tile at the drain the layers of a wall are named.
const noteLevelMM = 60

// notes names the layers of the shower's floor, of the room's and of the walls.
func (d *Drawing) notes(r geometry.Result, stage buildup.Stage) {
	d.floorNote(r, stage, r.Layout.OpenFloor)
	d.floorNote(r, stage, r.Layout.Rest)
	for _, w := range r.Layout.Walls {
		if math.Abs(w.Outward.Dot(plan.Point{d.Cut.Along.X(), d.Cut.Along.Y()})) > 1-plan.HairMM {
			d.wallNote(r, w)
		}
	}
}

// floorNote names the layers along the longest stretch of a part of the floor, wherever
// there are the same as in its middle.
func (d *Drawing) floorNote(r geometry.Result, stage buildup.Stage, region plan.Region) {
	var longest plan.Interval
	for _, iv := range d.along(region) {
		if iv.To-iv.From > longest.To-longest.From {
			longest = iv
		}
	}
	const leastMM = 60
	if longest.To-longest.From < leastMM {
		return
	}
	var n Note
	var kinds []message.ID
	for _, share := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1} {
		x := longest.From + share*(longest.To-longest.From)
		var texts []message.Message
		var points []plan.Point
		var names []message.ID
		stack := r.Floor.At(d.planAt(x))
		for _, c := range slices.Backward(stack[1:]) {
			if c.Kind.Facts().Stage <= stage {
				texts = append(texts, message.Of("note.layer", message.In("layer", message.Of(c.Name)), message.Layer("thickness", c.ThicknessMM())))
				points, names = append(points, plan.Point{x, (c.BottomMM + c.TopMM) / 2}), append(names, c.Name)
			}
		}
		const intoMM = 15
		texts, points = append(texts, message.Of(stack[0].Name)), append(points, plan.Point{x, stack[0].TopMM - intoMM})
		if n.Texts == nil {
			n.Texts, kinds = texts, names
		}
		if slices.Equal(names, kinds) {
			n.Places = append(n.Places, points)
		}
	}
	d.Notes = append(d.Notes, n)
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
	out := w.Outward.Dot(plan.Point{d.Cut.Along.X(), d.Cut.Along.Y()})
	slices.SortFunc(faces, func(a, b face) int {
		if (a.at.From-b.at.From)*out < 0 {
			return -1
		}
		return 1
	})
	var n Note
	for _, f := range faces {
		n.Texts = append(n.Texts, message.Of("note.layer", message.In("layer", f.name), message.Layer("thickness", f.at.To-f.at.From)))
	}
	for _, up := range [...]float64{0, 30, 60} {
		var points []plan.Point
		for _, f := range faces {
			points = append(points, plan.Point{(f.at.From + f.at.To) / 2, level + up})
		}
		n.Places = append(n.Places, points)
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

// sealingInPlan draws how far the tanking reaches, and says how much of the floor is heated.
func (d *Drawing) sealingInPlan(r geometry.Result) {
	l := r.Layout
	if _, all := r.Settled.TankedBeyondMM(); !all && r.Settled.RoomFinished() {
		for _, p := range l.Untanked {
			d.Lines = append(d.Lines, Line{closed(p.Outer), Thin, true, "tanking"})
		}
	}
	if len(l.Heated) == 0 {
		return
	}
	n := Note{Texts: []message.Message{message.Of("note.heated", message.Arg{Name: "area", Value: message.Area{MM2: l.Heated.Area()}})}}
	for _, p := range l.Heated {
		if at := (plan.Region{p}).Centroid(); l.Heated.Contains(at, 0) {
			n.Places = append(n.Places, []plan.Point{at})
		}
	}
	low, high, _ := l.Heated.Bounds()
	for _, share := range [...]float64{0.5, 0.25, 0.75} {
		y := low.Y() + share*(high.Y()-low.Y())
		for _, iv := range l.Heated.Clip(plan.Point{0, y}, plan.Point{1, 0}) {
			n.Places = append(n.Places, []plan.Point{{(iv.From + iv.To) / 2, y}})
		}
	}
	d.Notes = append(d.Notes, n)
}
