package measure

import "underfall/geometry/message"

// Lines say what is sealed, and with how much.
func (s Sealing) Lines() []message.Message {
	out := []message.Message{
		message.Of("sealing.tanking", area("floor", s.TankedFloorMM2), area("walls", s.TankedWallMM2)),
		message.Of("sealing.tape", message.MM("all", s.TapeMM()), message.MM("floor", s.TapeFloorMM),
			message.MM("corners", s.TapeCornersMM), message.MM("edges", s.TapeEdgesMM)),
		message.Of("sealing.collars", message.N("n", s.Collars)),
	}
	if s.JointMM > 0 {
		out = append(out, message.Of("sealing.sealant", message.MM("all", s.SealantMM()), message.Layer("gap", s.JointMM),
			message.MM("floor", s.SealantFloorMM), message.MM("corners", s.SealantCornersMM), message.MM("edges", s.SealantEdgesMM), message.MM("fields", s.SealantFieldsMM)))
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
