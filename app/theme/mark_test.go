package theme_test

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"underfall/app/golden"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry"
)

func vials() []theme.Mark {
	return []theme.Mark{theme.VialOf(geometry.Sound), theme.VialOf(geometry.Tight), theme.VialOf(geometry.Stops), theme.VialOf(geometry.NotKnown)}
}

// allMarks are the marks there are, with a text where they carry one.
func allMarks() []theme.Mark {
	out := append(vials(), theme.VialOf("other"))
	for k := theme.Licensed; k <= theme.IconClose; k++ {
		m := theme.Mark{Kind: k}
		switch k {
		case theme.Level:
			m.Text = "+113"
		case theme.Wall:
			m.Text = "B"
		case theme.Corner:
			m.Text = "BC"
		case theme.Chance:
			m = theme.ChanceOf(96)
		}
		out = append(out, m)
	}
	return out
}

// page is a sheet of marks in light and dark, on paper.
func page(scale float64) *image.RGBA {
	const wide, high = 620, 330
	img := image.NewRGBA(image.Rect(0, 0, int(wide*scale), int(2*high*scale)))
	for i, dark := range []bool{false, true} {
		th := theme.New(dark, words.Book{})
		top := float64(i) * high
		draw.Draw(img, image.Rect(0, int(top*scale), int(wide*scale), int((top+high)*scale)), image.NewUniform(th.Role(theme.Paper)), image.Point{}, draw.Src)
		put := func(m theme.Mark, x, y, width float64) {
			p := th.Picture(m, width, scale)
			draw.Draw(img, p.Bounds().Add(image.Pt(int(x*scale), int((top+y)*scale))), p, image.Point{}, draw.Over)
		}
		for j, width := range []float64{58, 44, 30, 26} {
			for k, m := range vials() {
				put(m, 10+float64(k)*70, 10+float64(j)*34, width)
			}
		}
		x, y := 300.0, 10.0
		for _, m := range allMarks()[4:] {
			width, _ := m.Natural()
			if x+width > wide-10 {
				x, y = 300, y+64
			}
			put(m, x, y, width)
			x += width + 14
		}
		for k := range 6 { // a bubble that glides from sound to tight
			put(theme.Mark{Kind: theme.VialTight, Of: 50 + k*3}, 10+float64(k)*46, 160, 44)
		}
	}
	return img
}

func TestMarksAsSeen(t *testing.T) {
	for _, scale := range []float64{1, 2} {
		golden.Check(t, fmt.Sprintf("marks-%g", scale), page(scale))
	}
}

// Every mark draws something, at any scale, and stays within its picture; drawn again it is
// the same picture.
func TestMarksAreDrawnOnce(t *testing.T) {
	th := theme.New(false, words.Book{})
	for _, m := range allMarks() {
		for _, scale := range []float64{1, 1.5, 2} {
			width, high := m.Natural()
			p := th.Picture(m, width, scale)
			if p.Bounds().Dx() != int(math.Ceil(width*scale)) || p.Bounds().Dy() != int(math.Ceil(width*high*scale)) {
				t.Errorf("%v at %g is %v", m, scale, p.Bounds())
			}
			inked := 0
			for i := 3; i < len(p.Pix); i += 4 {
				if p.Pix[i] > 128 {
					inked++
				}
			}
			if inked < 5 {
				t.Errorf("%v at %g is empty", m, scale)
			}
			if th.Picture(m, width, scale) != p {
				t.Errorf("%v at %g is drawn twice", m, scale)
			}
		}
	}
	light := th.Picture(theme.VialOf(geometry.Sound), 44, 1)
	th.SetDark(true)
	if th.Picture(theme.VialOf(geometry.Sound), 44, 1) == light {
		t.Error("in the dark it is the light one")
	}
}

// Of a chance that is not whole a cell is empty, and one is full where there is any.
func TestChanceCells(t *testing.T) {
	for inHundred, cells := range map[int]int{0: 0, 1: 1, 2: 1, 4: 1, 50: 10, 52: 10, 53: 11, 96: 19, 99: 19, 100: 20} {
		if m := theme.ChanceOf(inHundred); m.Of != cells {
			t.Errorf("%d in 100 fills %d cells, want %d", inHundred, m.Of, cells)
		}
	}
}

// sight is how colours look to an eye, in linear light.
type sight [3][3]float64

// Sight without one kind of cones, in full: Machado, Oliveira and Fernandes, "A
// physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15 (2009),
// table of severity 1; from memory. Grey by the weights of luminance.
func sights() map[string]sight {
	return map[string]sight{
		"protan": {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
		"deutan": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
		"tritan": {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
		"grey":   {{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}},
	}
}

func (s sight) of(c color.RGBA) color.RGBA {
	in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	var out [3]uint8
	for i, row := range s {
		v := min(1, max(0, row[0]*in[0]+row[1]*in[1]+row[2]*in[2]))
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		out[i] = uint8(math.Round(v * 255))
	}
	return color.RGBA{out[0], out[1], out[2], c.A}
}

// seen is a vial on a sheet as an eye sees it.
func seen(m theme.Mark, s sight, dark bool, width, scale float64) *image.RGBA {
	th := theme.New(dark, words.Book{})
	p := th.Picture(m, width, scale)
	img := image.NewRGBA(p.Bounds())
	draw.Draw(img, img.Bounds(), image.NewUniform(th.Role(theme.Sheet)), image.Point{}, draw.Src)
	draw.Draw(img, img.Bounds(), p, image.Point{}, draw.Over)
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			img.SetRGBA(x, y, s.of(img.RGBAAt(x, y)))
		}
	}
	return img
}

// Any two vials stay apart by their shape, however small and however colours are seen: told
// only by what stands out from the sheet and what does not, a tenth of them differs.
func TestVialsStayApartByShape(t *testing.T) {
	for name, s := range sights() {
		for _, dark := range []bool{false, true} {
			sheet := theme.Sheet.In(dark)
			for _, width := range []float64{26, 30, 44, 58} {
				for i, a := range vials() {
					for _, b := range vials()[:i] {
						p, q := seen(a, s, dark, width, 1), seen(b, s, dark, width, 1)
						differ, all := 0, p.Bounds().Dx()*p.Bounds().Dy()
						for k := 0; k < len(p.Pix); k += 4 {
							stands := func(img *image.RGBA) bool {
								return contrast(color.NRGBA{img.Pix[k], img.Pix[k+1], img.Pix[k+2], 255}, sheet) > 2
							}
							if stands(p) != stands(q) {
								differ++
							}
						}
						if differ*10 < all {
							t.Errorf("%s, dark %v, %v wide: %v and %v differ in %d of %d", name, dark, width, a, b, differ, all)
						}
					}
				}
			}
		}
	}
}

// The vials as they look to eyes without one kind of cones, and in grey.
func TestVialsAsSeenOtherwise(t *testing.T) {
	const scale, cell, row = 2, 140, 80
	order := []string{"protan", "deutan", "tritan", "grey"}
	img := image.NewRGBA(image.Rect(0, 0, 8*cell, len(order)*row))
	for i, name := range order {
		s := sights()[name]
		for j, dark := range []bool{false, true} {
			draw.Draw(img, image.Rect(j*4*cell, i*row, (j+1)*4*cell, (i+1)*row), image.NewUniform(s.of(color.RGBA(theme.Sheet.In(dark)))), image.Point{}, draw.Src)
			for k, m := range vials() {
				p := seen(m, s, dark, 58, scale)
				draw.Draw(img, p.Bounds().Add(image.Pt((j*4+k)*cell+12, i*row+14)), p, image.Point{}, draw.Src)
			}
		}
	}
	golden.Check(t, "vials-seen", img)
}
