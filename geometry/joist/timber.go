package joist

import (
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
)

// Cutting is what is sawn out of joists for openings between trimmers, and the timber and
// hangers that are put in for it.
type Cutting struct {
	WidthMM, DepthMM float64 // of all of it, as of the joists
	// From is the wall that joists are counted from.
	From message.Letter
	// Start is the wall on whose side the joists start.
	Start    message.Letter
	Out      []SawnOut
	Trimmers []Length
	// Seconds are by the joists that they double, as long as those are in the room: what
	// bears in walls comes on top.
	Seconds []Length
	// Hangers are one for each end of a cut joist at a trimmer and each end of a trimmer.
	Hangers int
}

// SawnOut is what is taken out of a joist, along it from its start in the room.
type SawnOut struct {
	Joist        int
	FromMM, ToMM float64
}

// Length is a timber by its number.
type Length struct {
	Number   int
	LengthMM float64
}

// CuttingOf is the cutting of a floor; empty where no joist is cut out.
func CuttingOf(j *job.Job, l *layout.Layout) Cutting {
	c := Cutting{WidthMM: j.Floor.Joists.WidthMM, DepthMM: j.Floor.Joists.DepthMM, From: l.JoistsFrom, Start: j.AlongJoistsFrom()}
	for i := range l.CutOuts {
		o := &l.CutOuts[i]
		c.Out = append(c.Out, SawnOut{o.Joist, o.FromMM, o.FromMM + o.LengthMM})
	}
	for i := range l.Joists {
		js := &l.Joists[i]
		switch js.Member {
		case layout.CutJoist:
			for _, hung := range [2]bool{js.HungStart, js.HungEnd} {
				if hung {
					c.Hangers++
				}
			}
		case layout.SecondJoist:
			c.Seconds = append(c.Seconds, Length{js.Doubles, js.LengthMM()})
		case layout.Trimmer:
			c.Trimmers = append(c.Trimmers, Length{js.Number, js.LengthMM()})
			c.Hangers += 2
		}
	}
	return c
}

// Lines say it, one thing a line; none where nothing is cut out.
func (c Cutting) Lines() []message.Message {
	var out []message.Message
	from := message.Wall("wall", c.From)
	width, depth := message.MM("width", c.WidthMM), message.MM("depth", c.DepthMM)
	for _, o := range c.Out {
		out = append(out, message.Of("cutting.out", message.No("n", o.Joist), from,
			message.Along("from", o.FromMM), message.Along("to", o.ToMM), message.Along("length", o.ToMM-o.FromMM)))
	}
	for _, t := range c.Trimmers {
		out = append(out, message.Of("cutting.trimmer", message.No("n", t.Number), width, depth, message.Along("length", t.LengthMM)))
	}
	for _, s := range c.Seconds {
		out = append(out, message.Of("cutting.second", message.No("n", s.Number), from, width, depth, message.Along("length", s.LengthMM)))
	}
	if c.Hangers > 0 {
		out = append(out, message.Of("cutting.hangers", message.N("n", c.Hangers)))
	}
	if len(out) > 0 {
		out = append(out, message.Of("cutting.caution"))
	}
	return out
}
