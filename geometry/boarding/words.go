package boarding

import (
	"underfall/geometry/assembly"
	"underfall/geometry/message"
)

// Lines say how the boards are laid and sawn, one thing a line; none without boards.
func (p Plan) Lines() []message.Message {
	var out []message.Message
	for i := range p.Layers {
		out = append(out, p.Layers[i].lines()...)
		out = append(out, p.Layers[i].notes()...)
	}
	return p.sheets(out)
}

// Notes are the lines that do not tell the pieces of a layer, which a table does.
func (p Plan) Notes() []message.Message {
	var out []message.Message
	for i := range p.Layers {
		if p.Layers[i].TooMany {
			out = append(out, p.Layers[i].lines()...)
		}
		out = append(out, p.Layers[i].notes()...)
	}
	return p.sheets(out)
}

// sheets adds what is sawn from which sheets, and how, where there are boards.
func (p Plan) sheets(out []message.Message) []message.Message {
	for _, s := range p.Stocks {
		if s.Sheets > 0 {
			share := s.LeftMM2 / (float64(s.Sheets) * s.LengthMM * s.WidthMM)
			out = append(out, message.Of("boarding.sheets", message.N("n", s.Sheets),
				message.MM("length", s.LengthMM), message.MM("width", s.WidthMM), message.Layer("thickness", s.ThicknessMM),
				message.Arg{Name: "left", Value: message.Area{MM2: s.LeftMM2}}, message.Arg{Name: "share", Value: message.Share(share)}))
		}
	}
	if len(p.Layers) > 0 {
		out = append(out, message.Of("boarding.rule", message.MM("saw", SawMM)))
	}
	return out
}

// lines say what one layer is laid of.
func (l *Layer) lines() []message.Message {
	layer := message.In("layer", l.Name)
	if l.TooMany {
		return []message.Message{message.Of("boarding.too-many", layer)}
	}
	if len(l.Pieces) == 0 {
		return nil
	}
	var list message.List
	for i := range l.Pieces {
		list.Items = append(list.Items, l.Pieces[i].whole(l.Former))
	}
	count, pieces := message.N("n", len(l.Pieces)), message.Arg{Name: "pieces", Value: list}
	if l.Former {
		return []message.Message{message.Of("boarding.former", layer, count, pieces)}
	}
	return []message.Message{message.Of("boarding.layer", layer, message.Layer("thickness", l.BoardMM), count, pieces)}
}

// notes say what has to be known of one layer beside its pieces.
func (l *Layer) notes() (out []message.Message) {
	if l.TooMany {
		return nil
	}
	if l.Packed() && len(l.Pieces) > 0 {
		out = append(out, message.Of("boarding.packed", message.In("layer", l.Name),
			message.Layer("deep", l.ThicknessMM), message.Layer("thickness", l.BoardMM)))
	}
	if l.Strips > 0 {
		out = append(out, message.Of("boarding.strips", message.N("n", l.Strips), message.MM("narrow", assembly.LeastStripMM)))
	}
	if l.Loose > 0 {
		out = append(out, message.Of("boarding.loose", message.N("n", l.Loose)))
	}
	return out
}

// Message is a piece's number and the size it is sawn to; of a former with how thick it is.
func (p *Piece) Message(former bool) message.Message {
	n, long, wide := message.No("n", p.Number), message.MM("length", p.LengthMM), message.MM("width", p.WidthMM)
	switch {
	case former && p.ThickMM-p.ThinMM > sameThicknessMM:
		return message.Of("boarding.wedge", n, long, wide, message.Layer("thin", p.ThinMM), message.Layer("thick", p.ThickMM))
	case p.Notched:
		return message.Of("boarding.notched", n, long, wide)
	}
	return message.Of("boarding.piece", n, long, wide)
}

// Message says how large a cut is and where it begins.
func (c Cut) Message() message.Message {
	return message.Of("boarding.cut", message.MM("long", c.SizeMM.X()), message.MM("wide", c.SizeMM.Y()),
		message.MM("along", c.AtMM.X()), message.MM("across", c.AtMM.Y()))
}

// whole is a piece's message with what is sawn out of it.
func (p *Piece) whole(former bool) message.Message {
	if former || len(p.Cuts) == 0 {
		return p.Message(former)
	}
	var cuts message.List
	for _, c := range p.Cuts {
		cuts.Items = append(cuts.Items, c.Message())
	}
	return message.Of("boarding.less", message.No("n", p.Number), message.MM("length", p.LengthMM), message.MM("width", p.WidthMM),
		message.Arg{Name: "cuts", Value: cuts})
}
