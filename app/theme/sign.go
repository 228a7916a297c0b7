package theme

import "image/color"

// sign draws a mark at its usual size.
func (p *pen) sign(m Mark, w, h float64, dark bool) {
	ink, press := Ink.In(dark), Press.In(dark)
	switch m.Kind {
	case Licensed:
		p.ring(ink, 1.8, path{{w * 0.16, 2}, {w * 0.66, 2}, {w * 0.86, h / 2}, {w * 0.66, h - 2}, {w * 0.16, h - 2}})
		p.fill(ink, arc(at{w * 0.66, h / 2}, 2, 2, 0, 360))
	case Level:
		const plate = 20
		p.fill(Sheet.In(dark), box(0, 0, w, plate, PlateRadius))
		p.text(ink, m.Text, at{w / 2, plate / 2}, TextSecond)
		p.fill(press, bar(at{w / 2, plate}, at{w / 2, h - 6}, 1.2)...)
		p.fill(press, box(w/2-3, h-6, 6, 6, 0))
	case Step:
		p.riser(ink, 36, h-2, 2)
		p.arrow(ink, at{27, h - 4}, at{27, 4}, true)
	case Lip:
		p.riser(ink, 34, h-10, h-22)
		p.arrow(Tight.In(dark), at{26, 3}, at{26, h - 14}, false)
	case Flush:
		p.line(ink, 2, at{1, h / 2}, at{w - 1, h / 2})
		p.line(Sound.In(dark), 5, at{w * 0.3, h / 2}, at{w * 0.7, h / 2})
	case Cut:
		const flag = 12
		p.broken(press, 1.4, []float64{14, 3, 3, 3, 3, 3}, at{flag + 2, flag / 2}, at{flag + 2, h - flag/2})
		for _, y := range []float64{0, h - flag} {
			p.fill(press, path{{2, y + 1}, {flag + 2, y + flag/2}, {2, y + flag - 1}})
		}
	case Wall:
		p.fill(ink, arc(at{w / 2, h / 2}, w/2, h/2, 0, 360))
		p.text(Paper.In(dark), m.Text, at{w / 2, h / 2}, TextSecond)
	case Corner:
		p.fill(Sheet.In(dark), arc(at{w / 2, h / 2}, w/2-1, h/2-1, 0, 360))
		p.ring(press, 2, arc(at{w / 2, h / 2}, w/2-1, h/2-1, 0, 360)[1:])
		p.text(press, m.Text, at{w / 2, h / 2}, TextBody)
	case Reading:
		p.fill(Sheet.In(dark), path{{1, 1}, {w - 1, 1}, {w / 2, h - 1}})
		p.ring(ink, 1.2, path{{1, 1}, {w - 1, 1}, {w / 2, h - 1}})
	case Handle:
		p.fill(press, box(1, 1, w-2, h-2, 2.5))
		p.fill(Sheet.In(dark), box(3, 3, w-6, h-6, 1))
	}
}

// riser draws two floors and what is between them: the lower one to x, the upper one on from it.
func (p *pen) riser(ink color.NRGBA, x, low, high float64) {
	const end = 65
	p.line(ink, 2, at{1, low}, at{x, low}, at{x, high}, at{end, high})
}

// arrow draws an arrow to b, or one with two heads.
func (p *pen) arrow(ink color.NRGBA, a, b at, both bool) {
	const head = 4
	p.line(ink, 1.6, a, b)
	barbs := func(tip at, back float64) {
		p.line(ink, 1.6, at{tip.x - head, tip.y + back}, tip, at{tip.x + head, tip.y + back})
	}
	back := float64(head)
	if b.y > a.y {
		back = -back
	}
	barbs(b, back)
	if both {
		barbs(a, -back)
	}
}
