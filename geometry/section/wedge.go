package section

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// wedgeMM is from which difference on a layer is told as a wedge: what thicknesses are told in.
const wedgeMM = 0.5

// stretch is one of the floor on the cut that has the same layers all along: those at its ends and wherever the falling floor bends.
type stretch struct {
	at     []float64
	stacks []buildup.Stack
}

// stretchOf is a stretch of a zone of the floor along the cut; ok is false where it has not the same layers all along.
func (d *Drawing) stretchOf(r *geometry.Result, iv plan.Interval, zone int, stage buildup.Stage) (s stretch, ok bool) {
	const insideMM = 1e-3 // so that a place on a border is of this zone
	if iv.To-iv.From < 2*insideMM {
		return s, false
	}
	s.at = []float64{iv.From + insideMM, iv.To - insideMM}
	for _, p := range r.Layout.Planes {
		for _, of := range d.along(p.Region) {
			for _, x := range [...]float64{of.From, of.To} {
				if x > s.at[0] && x < iv.To-insideMM {
					s.at = append(s.at, x)
				}
			}
		}
	}
	slices.Sort(s.at)
	for _, x := range s.at {
		p := d.planAt(x)
		if r.Floor.ZoneAt(p) != zone {
			return s, false
		}
		s.stacks = append(s.stacks, laid(r.Floor.At(p), stage))
	}
	return s, !slices.ContainsFunc(s.stacks, func(stack buildup.Stack) bool { return !s.has(stack) })
}

// has tells whether layers are those of the stretch, which they may not be at a place that it was not looked at.
func (s *stretch) has(layers buildup.Stack) bool {
	same := func(a, b buildup.Course) bool { return a.Kind == b.Kind && a.Number == b.Number }
	return slices.EqualFunc(layers, s.stacks[0], same)
}

// wedge tells where along the stretch a layer, by its index, is thinnest and thickest; ok is false of one as thick all along.
func (s *stretch) wedge(layer int) (thin, thick int, ok bool) {
	mm := func(i int) float64 { return s.stacks[i][layer].ThicknessMM() }
	for i := range s.stacks {
		if mm(i) < mm(thin) {
			thin = i
		}
		if mm(i) > mm(thick) {
			thick = i
		}
	}
	return thin, thick, mm(thick)-mm(thin) >= wedgeMM
}

// told is how thick a layer is at a place of the stretch, so that all layers there add up.
func (s *stretch) told(name string, at, layer int) message.Arg {
	return s.stacks[at].Chain().Part(name, layer)
}

// layerText names a layer with how thick it is where it is named, and of a wedge with how thin and how thick it comes along the stretch.
func layerText(layer *buildup.Course, thickness message.Arg, s *stretch, index int) message.Message {
	name := message.In("layer", message.Of(layer.Name))
	if s != nil {
		if thin, thick, ok := s.wedge(index); ok {
			return message.Of("note.wedge", name, thickness, s.told("thin", thin, index), s.told("thick", thick, index))
		}
	}
	return message.Of("note.layer", name, thickness)
}

// wedges dimensions the layers that are wedges at both ends of each stretch of the floor, where they are thick enough for that and
// the same is not told beside it.
func (d *Drawing) wedges(r *geometry.Result, stage buildup.Stage) {
	d.floorStretches(r, func(zone int, stretches []plan.Interval) {
		for _, iv := range stretches {
			s, ok := d.stretchOf(r, iv, zone, stage)
			if !ok || iv.To-iv.From < leastNoteMM {
				continue
			}
			for layer := range s.stacks[0] {
				if _, _, is := s.wedge(layer); is {
					d.wedgeEnd(&s, 0, layer, 1)
					d.wedgeEnd(&s, len(s.at)-1, layer, -1)
				}
			}
		}
	})
}

// wedgeEnd dimensions a layer at one end of a stretch, written towards its inside.
func (d *Drawing) wedgeEnd(s *stretch, end, layer int, in float64) {
	const sameNearMM = 300 // a strip behind a drain is as thick as what is before it
	x, c := s.at[end], &s.stacks[end][layer]
	cut := slices.ContainsFunc([]float64{2, 8, 30}, func(insideMM float64) bool { return d.column(x + in*insideMM).cut(c) })
	if !cut || c.ThicknessMM() < leastDimensionMM {
		return
	}
	row := 1
	for _, m := range d.Dimensions {
		if m.Side.Y() != 0 {
			continue
		}
		off := math.Abs(m.From.X() - x)
		if off < sameNearMM && math.Abs(m.From.Y()-c.BottomMM) < wedgeMM && math.Abs(m.To.Y()-c.TopMM) < wedgeMM {
			return
		}
		if off < buildUpNearMM && m.Side.X()*in > 0 && m.From.Y() < c.TopMM && m.To.Y() > c.BottomMM {
			row = max(row, m.Row+1)
		}
	}
	d.Dimensions = append(d.Dimensions, Dimension{From: plan.Point{x, c.BottomMM}, To: plan.Point{x, c.TopMM},
		Text: message.Of("dimension.length", s.told("length", end, layer)), Row: row, Side: plan.Point{in, 0}})
}
