package measure

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"underfall/geometry/message"
)

// Lines say what is sealed, and with how much.
func (s Sealing) Lines() []message.Message {
	out := []message.Message{
		message.Of("sealing.tanking", area("floor", s.TankedFloorMM2), area("walls", s.TankedWallMM2)),
		message.Of("sealing.tape", message.OfStock("all", s.TapeMM()), message.OfStock("floor", s.TapeFloorMM),
			message.OfStock("corners", s.TapeCornersMM), message.OfStock("edges", s.TapeEdgesMM), message.OfStock("feet", s.TapeFacesMM),
			message.OfStock("openings", s.TapeOpeningsMM)),
		message.Of("sealing.collars", message.N("n", s.Collars)),
	}
	if s.OpeningsMM2 > 0 {
		out = append(out, message.Of("sealing.openings", area("openings", s.OpeningsMM2), area("reveals", s.RevealsMM2)))
	}
	if s.FacesMM2 > 0 {
		out = append(out, message.Of("sealing.faces", area("faces", s.FacesMM2)))
	}
	if s.UpturnMM2 > 0 {
		out = append(out, message.Of("sealing.upturn", message.MM("high", s.UpturnMM), area("upturn", s.UpturnMM2)))
	}
	if s.BoxingMM2 > 0 {
		out = append(out, message.Of("sealing.boxing", area("boxing", s.BoxingMM2), message.OfStock("tape", s.TapeBoxingMM)))
	}
	if s.JointMM > 0 {
		out = append(out, message.Of("sealing.sealant", message.OfStock("all", s.SealantMM()), message.Layer("gap", s.JointMM),
			message.OfStock("floor", s.SealantFloorMM), message.OfStock("corners", s.SealantCornersMM), message.OfStock("edges", s.SealantEdgesMM), message.OfStock("fields", s.SealantFieldsMM)))
	} else {
		out = append(out, message.Of("sealing.no-joints"))
	}
	out = append(out, s.fields())
	if s.StopDoorsMM+s.StopScreensMM > 0 {
		out = append(out, message.Of("sealing.stops", message.OfStock("doors", s.StopDoorsMM), message.OfStock("screens", s.StopScreensMM)))
	}
	if s.SleeveMM > 0 {
		out = append(out, message.Of("sealing.sleeve", message.Wall("wall", s.SleeveWall), message.MM("long", s.SleeveMM)))
	}
	if s.EdgeStripMM > 0 {
		out = append(out, message.Of("sealing.edge-strip", message.OfStock("strip", s.EdgeStripMM)))
	}
	if s.HeatedMM2 > 0 {
		out = append(out, message.Of("sealing.heated", area("heated", s.HeatedMM2)))
	}
	return out
}

// mostSizes is how many sizes of fields are listed, the largest first.
const mostSizes = 8

// fields say how the floor's tile is parted.
func (s Sealing) fields() message.Message {
	if len(s.Joints) == 0 {
		return message.Of("sealing.field", message.Along("field", s.FieldMM))
	}
	type size struct{ width, depth float64 }
	many := map[size]int{}
	for _, f := range s.Fields {
		many[size{math.Round(f.WidthMM), math.Round(f.DepthMM)}]++
	}
	sizes := slices.SortedFunc(maps.Keys(many), func(a, b size) int {
		return cmp.Or(cmp.Compare(b.width*b.depth, a.width*a.depth), cmp.Compare(b.width, a.width))
	})
	var list message.List
	for _, f := range sizes[:min(len(sizes), mostSizes)] {
		list.Items = append(list.Items, message.Of("sealing.field-size", message.No("n", many[f]), message.Along("width", f.width), message.Along("depth", f.depth)))
	}
	creases := 0
	for _, x := range s.Joints {
		if x.Crease {
			creases++
		}
	}
	return message.Of("sealing.fields", message.N("n", len(s.Joints)), message.No("creases", creases), message.Arg{Name: "fields", Value: list})
}

func area(name string, mm2 float64) message.Arg {
	return message.Arg{Name: name, Value: message.Area{MM2: mm2}}
}
