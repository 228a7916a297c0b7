package measure

import "underfall/geometry/message"

// Lines say what is sealed, and with how much.
func (s Sealing) Lines() []message.Message {
	out := []message.Message{
		message.Of("sealing.tanking", area("floor", s.TankedFloorMM2), area("walls", s.TankedWallMM2)),
		message.Of("sealing.tape", message.OfStock("all", s.TapeMM()), message.OfStock("floor", s.TapeFloorMM),
			message.OfStock("corners", s.TapeCornersMM), message.OfStock("edges", s.TapeEdgesMM), message.OfStock("openings", s.TapeOpeningsMM)),
		message.Of("sealing.collars", message.N("n", s.Collars)),
	}
	if s.OpeningsMM2 > 0 {
		out = append(out, message.Of("sealing.openings", area("openings", s.OpeningsMM2), area("reveals", s.RevealsMM2)))
	}
	if s.JointMM > 0 {
		out = append(out, message.Of("sealing.sealant", message.OfStock("all", s.SealantMM()), message.Layer("gap", s.JointMM),
			message.OfStock("floor", s.SealantFloorMM), message.OfStock("corners", s.SealantCornersMM), message.OfStock("edges", s.SealantEdgesMM), message.OfStock("fields", s.SealantFieldsMM)))
	} else {
		out = append(out, message.Of("sealing.no-joints"))
	}
	out = append(out, message.Of("sealing.field", message.MM("field", s.FieldMM)))
	if s.HeatedMM2 > 0 {
		out = append(out, message.Of("sealing.heated", area("heated", s.HeatedMM2)))
	}
	return out
}

func area(name string, mm2 float64) message.Arg {
	return message.Arg{Name: name, Value: message.Area{MM2: mm2}}
}
