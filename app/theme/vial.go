package theme

import "image/color"

// BubbleAt is where the bubble of a vial stands, in hundredths of its width; of one that is
// not known it is nowhere.
func BubbleAt(k Kind) int {
	switch k {
	case VialSound:
		return 50
	case VialTight:
		return 66
	case VialStops:
		return 98
	}
	return 0
}

// vial draws a spirit level's vial. A bubble that glides stands where Of says.
func (p *pen) vial(m Mark, w float64, dark bool) {
	bubble := float64(BubbleAt(m.Kind)) / 100
	if m.Of != 0 {
		bubble = float64(m.Of) / 100
	}
	h := w * vialHigh
	open := Sheet.In(dark)
	lineWide := 1.3
	if w > 36 {
		lineWide = 2
	}
	lines := func(ink color.NRGBA) {
		for _, x := range []float64{0.36, 0.64} {
			p.fill(ink, bar(at{w * x, h * 0.1}, at{w * x, h * 0.9}, lineWide)...)
		}
	}
	switch m.Kind {
	case VialSound:
		p.fill(Sound.In(dark), box(1, 1, w-2, h-2, h/2))
		lines(open)
		p.fill(open, arc(at{w * bubble, h / 2}, w*0.105, h*0.27, 0, 360))
	case VialTight:
		ink := Tight.In(dark)
		edge := max(1.4, min(2, w/22))
		p.fill(ink, box(0.6, 0.6, w-1.2, h-1.2, h/2))
		p.fill(TightGround.In(dark), box(0.6+edge, 0.6+edge, w-1.2-2*edge, h-1.2-2*edge, h/2))
		lines(ink)
		p.fill(ink, arc(at{w * bubble, h / 2}, w*0.12, h*0.27, 0, 360))
	case VialStops:
		p.fill(Stops.In(dark), box(1, 1, w-2, h-2, 1.5))
		lines(open)
		p.out(w, h, bubble, open)
		p.fill(open, bar(at{w * 0.07, h / 2}, at{w * 0.28, h / 2}, h*0.17)...)
	case VialUnknown:
		ink := Unknown.In(dark)
		r := box(1.2, 1.2, w-2.4, h-2.4, h/2)
		p.broken(ink, 1.6, []float64{max(2.6, w*0.07), max(2, w*0.052)}, append(r, r[0])...)
		p.text(ink, "?", at{w / 2, h / 2}, h*0.72)
	}
}

// out draws the bubble of what stops: at its place it is cut off by the vial's end.
func (p *pen) out(w, h, bubble float64, ink color.NRGBA) {
	var shape path
	for _, q := range arc(at{w * bubble, h / 2}, w*0.13, h*0.28, 0, 360) {
		shape = append(shape, at{min(q.x, w-1), q.y})
	}
	p.fill(ink, shape)
}

// chance draws twenty cells, so many of them full.
func (p *pen) chance(full int, w, h float64, dark bool) {
	const edge = 1.2
	step := w / chanceCells
	for i := range chanceCells {
		cell := box(float64(i)*step+edge/2, edge/2, step-2-edge, h-edge, 1.5)
		if i < full {
			p.fill(Sound.In(dark), box(float64(i)*step, 0, step-2, h, 1.5))
		} else {
			p.ring(Tight.In(dark), edge, cell)
		}
	}
}
