package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/waste"
)

// pieceNames name the pieces of the run where they lie in plan; those that findings speak of
// are marked. Bends and the trap's outlet are named with their inverts.
func (d *Drawing) pieceNames(r geometry.Result) {
	run, spoken := &r.Heights.Run, spokenOf(r)
	for i := range run.Pieces {
		p := &run.Pieces[i]
		name := p.Name()
		switch {
		case p.Kind == waste.Bend && p.FromMM < run.ExitAtMM, p.Kind == waste.Joint:
		case spoken[name]:
			at := p.PointAt((p.FromMM + math.Max(p.FromMM, math.Min(p.ToMM, run.InRoomMM()))) / 2)
			d.Marks = append(d.Marks, Mark{At: at, Of: MarkPiece, Said: name.Message(), Under: true})
		default:
			d.Names = append(d.Names, Name{Texts: []message.Message{name.Message()}, Places: besidePiece(p, run), Small: true})
		}
	}
}

// spokenOf are the pieces that findings which stop the job speak of, by their names.
func spokenOf(r geometry.Result) map[message.Numbered]bool {
	out := map[message.Numbered]bool{}
	for i := range r.Findings {
		f := &r.Findings[i]
		if s := f.Measurement.Subject; f.Rule.Severity == rule.Stop {
			out[s.Piece] = true
			out[message.Numbered{ID: s.Which, Number: s.Number}] = true
		}
	}
	return out
}

// outletMark is the mark of the invert at the trap's outlet, to be put at a point: with its name
// where a finding speaks of it.
func outletMark(r *geometry.Result, at plan.Point) Mark {
	m := Mark{At: at, Of: MarkInvert, LevelMM: r.Heights.Run.InvertAt(0)}
	if name := (&waste.Piece{Kind: waste.Joint, Number: 1}).Name(); spokenOf(*r)[name] {
		m.Of, m.Said = MarkPieceInvert, name.Message()
	}
	return m
}

// besidePiece are places for the name of a piece in plan, beside it, in the room where it
// leads out.
func besidePiece(p *waste.Piece, run *waste.Run) (out []NameAt) {
	a, b, half := p.Path[0], p.Path[len(p.Path)-1], p.RadiusMM()
	if p.FromMM < run.InRoomMM() {
		b = p.PointAt(math.Min(p.ToMM, run.InRoomMM()))
	}
	along := b.Sub(a)
	if along.Len() < plan.HairMM {
		for _, side := range [...]plan.Point{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			out = append(out, NameAt{a.Add(side.Mul(half)), side})
		}
		return out
	}
	side := plan.Left(along.Normalize())
	for _, share := range [...]float64{0.5, 0.3, 0.7, 0.15, 0.85} {
		at := a.Add(along.Mul(share))
		out = append(out, NameAt{at.Add(side.Mul(half)), side}, NameAt{at.Sub(side.Mul(half)), side.Mul(-1)})
	}
	return out
}

// pieceNames name the pieces over the pipe, and under it where there is no room; those that
// findings speak of are marked.
func (g *long) pieceNames() {
	run, spoken := &g.r.Heights.Run, spokenOf(g.r)
	up := plan.Point{0, 1}
	for i := range run.Pieces {
		p := &run.Pieces[i]
		name, from, to := p.Name(), p.FromMM, math.Min(p.ToMM, g.endMM())
		if p.Kind == waste.Drop || p.Kind == waste.Joint {
			continue // it stands for itself, or is told with its invert
		}
		if spoken[name] {
			s := (from + math.Max(from, to)) / 2
			g.Marks = append(g.Marks, Mark{At: g.at(s, run.InvertAt(s)+p.AboveInvertMM(s)), Of: MarkPiece, Said: name.Message()})
			continue
		}
		if to-from < 1 {
			continue
		}
		n := Name{Texts: []message.Message{name.Message()}, Small: true}
		for _, share := range [...]float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			s := from + share*(to-from)
			invert := run.InvertAt(s)
			over, under := g.at(s, invert+p.AboveInvertMM(s)), g.at(s, invert-p.BelowInvertMM(s))
			n.Places = append(n.Places, NameAt{over, up}, NameAt{under, up.Mul(-1)})
		}
		g.Names = append(g.Names, n)
	}
}
