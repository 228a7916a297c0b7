package start

import (
	"image"
	"image/color"
	"image/draw"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/progress"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// sketch is a small drawing: what is drawn of it between two corners fills its place.
type sketch struct {
	drawing   section.Drawing
	low, high plan.Point
	ground    theme.Role
	// loose keeps so many units free all round.
	loose float64
}

// painter is the one painter of a sketch's texts and hatches.
func painter() *paint.Painter {
	p, err := paint.NewPainter(fynetheme.DefaultTextFont().Content())
	if err != nil {
		return nil
	}
	return p
}

// view places a sketch on a picture of pixels, so many to a unit.
func (s sketch) view(w, h int, pixels float64) paint.View {
	size := s.high.Sub(s.low)
	v := paint.View{Centre: s.low.Add(s.high).Mul(0.5), Width: w, Height: h, PixelsPerMM: 1}
	if size.X() > 0 && size.Y() > 0 {
		v.PixelsPerMM = min((float64(w)-2*s.loose*pixels)/size.X(), (float64(h)-2*s.loose*pixels)/size.Y())
	}
	v.PixelsPerMM = max(v.PixelsPerMM, 1e-4)
	return v
}

// paint is the sketch as pixels.
func (s sketch) paint(w, h int, pixels float64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	t, ok := fyne.CurrentApp().Settings().Theme().(*theme.Theme)
	p := painter()
	if !ok || p == nil || w < 2 || h < 2 {
		return img
	}
	style := t.PaintStyle(pixels, unit.Metric, "")
	style.Unit = message.Message{} // it has no figures
	c := of(s.ground)
	style.Paper = color.RGBA{c.R, c.G, c.B, 255}
	draw.Draw(img, img.Bounds(), image.NewUniform(style.Paper), image.Point{}, draw.Src)
	p.Draw(img, s.drawing, s.view(w, h, pixels), style)
	return img
}

// object shows a sketch at a size.
func (s sketch) object(w, h float32) fyne.CanvasObject {
	r := canvas.NewRaster(func(pw, ph int) image.Image {
		if w <= 0 || pw <= 0 {
			return image.NewRGBA(image.Rect(0, 0, 1, 1))
		}
		return s.paint(pw, ph, float64(pw)/float64(w))
	})
	r.SetMinSize(fyne.NewSize(w, h))
	return r
}

// cut is an area of a material between two corners, hatched as where it is cut.
func cut(m material.Material, x0, y0, x1, y1 float64) section.Area {
	return section.Area{Material: m, Cut: true, Region: plan.Rectangle(plan.Point{x0, y0}, plan.Point{x1, y1})}
}

// planSketch is a small plan: the room within heavy walls with its doors, and the shower.
func planSketch(p progress.Plan) sketch {
	d := section.Drawing{}
	low, high, ok := plan.FromRing(p.Room).Bounds()
	if !ok {
		return sketch{}
	}
	shade := of(theme.Sunk)
	d.Areas = append(d.Areas, section.Area{Material: material.Tile, Region: plan.FromRing(p.Room),
		Colour: color.RGBA{shade.R, shade.G, shade.B, 255}})
	if len(p.Shower) > 0 {
		d.Areas = append(d.Areas, section.Area{Material: material.Tile, Region: plan.FromRing(p.Shower)})
	}
	for i, a := range p.Room {
		b := p.Room[(i+1)%len(p.Room)]
		from := a
		for _, door := range doorsOn(p.Doors, a, b) {
			d.Lines = append(d.Lines, section.Line{Points: []plan.Point{from, door[0]}, Weight: section.Heavy})
			from = door[1]
		}
		d.Lines = append(d.Lines, section.Line{Points: []plan.Point{from, b}, Weight: section.Heavy})
	}
	return sketch{drawing: d, low: low, high: high, loose: 4, ground: theme.Sheet}
}

// doorsOn are the doors in a wall in order along it, from where it begins on.
func doorsOn(all [][2]plan.Point, a, b plan.Point) (on [][2]plan.Point) {
	const near = 1
	for _, d := range all {
		if plan.DistanceToSegment(d[0], a, b) > near || plan.DistanceToSegment(d[1], a, b) > near {
			continue
		}
		if d[0].Sub(a).Len() > d[1].Sub(a).Len() {
			d[0], d[1] = d[1], d[0]
		}
		on = append(on, d)
	}
	slices.SortFunc(on, func(x, y [2]plan.Point) int {
		if x[0].Sub(a).Len() < y[0].Sub(a).Len() {
			return -1
		}
		return 1
	})
	return on
}

// stepSketch is the build-up at the way in beside the floor of the room, to one scale.
func stepSketch(b Build) sketch {
	const wide, beside, floorMM, leastHigh = 90, 70, 34, 150
	base, top, room := b.BaseMM, b.TopMM, b.RoomMM
	low := min(base, 0) - floorMM
	d := section.Drawing{}
	switch b.Floor {
	case UnderTimber:
		deck := 22.0
		d.Areas = append(d.Areas, cut(material.Deck, wide, -deck, wide+beside, 0))
		if base >= -deck {
			d.Areas = append(d.Areas, cut(material.Deck, 0, -deck, wide, 0))
		}
		for _, x := range []float64{wide*0.25 - 12, wide + beside*0.4} {
			if base >= -deck || x > wide {
				d.Areas = append(d.Areas, cut(material.Timber, x, -deck-95, x+24, -deck))
			}
		}
		low = min(low, -deck-95)
	default:
		d.Areas = append(d.Areas, cut(material.Concrete, 0, low, wide+beside, min(base, 0)))
	}
	d.Areas = append(d.Areas, cut(material.BaseBoard, 0, base, wide, top-tileMM), cut(material.Tile, 0, top-tileMM, wide, top),
		cut(material.Tile, wide, 0, wide+beside, room))
	return sketch{drawing: d, low: plan.Point{0, low}, high: plan.Point{wide + beside, max(top, low+leastHigh)}, loose: 2, ground: theme.Sheet}
}

// tileMM is how thick tile is drawn in a small build-up.
const tileMM = 11

// Under is what a floor in a small drawing lies on.
type Under uint8

// What it may be.
const (
	UnderConcrete Under = iota
	UnderTimber
)

// Build is the build-up at the way in, by levels over the structural floor: what the base stands on, the
// top of the tile in the shower, and of the room's floor.
type Build struct {
	Floor                 Under
	BaseMM, TopMM, RoomMM float64
}

// BuildOf is the build-up of a job that was worked out; ok is false where there is none to see.
func BuildOf(r *geometry.Result) (b Build, ok bool) {
	if len(r.Problems) > 0 {
		return b, false
	}
	for i, e := range r.Heights.Edges(&r.Settled, &r.Layout) {
		if mm := e.WorstStepMM(); r.Layout.WalkedOver(i) && (!ok || abs(mm) > abs(b.TopMM-b.RoomMM)) {
			ok, b.RoomMM = true, min(e.RoomA, e.RoomB)
			b.TopMM = b.RoomMM + mm
		}
	}
	if r.Settled.Floor.Kind == "timber" {
		b.Floor = UnderTimber
	}
	if r.Settled.Base.Support == "between-joists" {
		b.BaseMM = r.Heights.BaseTopMM - r.Heights.BaseThicknessMM(&r.Settled)
	}
	return b, ok
}

func abs(x float64) float64 { return max(x, -x) }

// lookSketch shows what is done in a look that tells of an input: a board lifted over joists, or a wall with an opening
// that shows how thick it is; ok is false of any other.
func lookSketch(key string) (s sketch, ok bool) {
	d := section.Drawing{}
	switch {
	case strings.HasPrefix(key, "floor."):
		for _, x := range []float64{8, 40, 72} {
			d.Areas = append(d.Areas, cut(material.Timber, x, 0, x+12, 34))
		}
		board := plan.FromRing(plan.Ring{{38, 52}, {76, 72}, {73, 79}, {35, 59}})
		d.Areas = append(d.Areas, cut(material.Deck, 0, 34, 34, 42), cut(material.Deck, 78, 34, 92, 42),
			section.Area{Material: material.Deck, Cut: true, Region: board})
	case strings.HasPrefix(key, job.WallsKey):
		d.Areas = append(d.Areas, cut(material.Masonry, 0, 22, 30, 52), cut(material.Masonry, 62, 22, 92, 52))
		d.Lines = append(d.Lines, section.Line{Points: []plan.Point{{46, 22}, {46, 52}}, Weight: section.Heavy},
			section.Line{Points: []plan.Point{{40, 22}, {52, 22}}, Weight: section.Heavy},
			section.Line{Points: []plan.Point{{40, 52}, {52, 52}}, Weight: section.Heavy})
	default:
		return s, false
	}
	return sketch{drawing: d, low: plan.Point{0, 0}, high: plan.Point{92, 80}, loose: 2, ground: theme.SoundGround}, true
}
