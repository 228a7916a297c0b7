package pen

import (
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
	"underfall/geometry/placing"
)

// Fonts are the two faces as they are put on pixels, each size made once. They are for one goroutine; without any,
// the zero Fonts, nothing is written.
type Fonts struct {
	fonts [2]*opentype.Font
	faces map[sized]font.Face
	cover vector.Rasterizer
	mask  []uint8 // how much of each pixel was last covered
}

type sized struct {
	face Face
	half int // of a pixel
}

// NewFonts reads fonts from TrueType files; without a bold one all is written in the regular one.
func NewFonts(regular, bold []byte) (*Fonts, error) {
	out := &Fonts{faces: map[sized]font.Face{}}
	for i, data := range [...][]byte{Regular: regular, Bold: bold} {
		if data == nil && i > 0 {
			out.fonts[i] = out.fonts[Regular]
			continue
		}
		f, err := opentype.Parse(data)
		if err != nil {
			return nil, fmt.Errorf("reading the drawing font: %w", err)
		}
		out.fonts[i] = f
	}
	return out, nil
}

// in is a face in a size; nil where the font cannot be had in it.
func (f *Fonts) in(size float64, face Face) font.Face {
	key := sized{face, int(math.Round(size * 2))}
	if made, ok := f.faces[key]; ok {
		return made
	}
	if f.fonts[face] == nil {
		return nil
	}
	made, err := opentype.NewFace(f.fonts[face], &opentype.FaceOptions{Size: float64(key.half) / 2, DPI: 72, Hinting: font.HintingVertical})
	if err != nil {
		return nil
	}
	f.faces[key] = made
	return made
}

// On is a pen that marks the pixels of a picture.
func (f *Fonts) On(img *image.RGBA) Pen { return raster{f, img} }

type raster struct {
	fonts *Fonts
	image *image.RGBA
}

func (r raster) Fill(rings [][]placing.Point, ink color.RGBA) {
	if len(rings) == 0 {
		return // the bounds of nothing would be the whole picture
	}
	low, high := placing.Point{math.Inf(1), math.Inf(1)}, placing.Point{math.Inf(-1), math.Inf(-1)}
	for _, ring := range rings {
		for _, q := range ring {
			for k := range 2 {
				low[k], high[k] = math.Min(low[k], q[k]), math.Max(high[k], q[k])
			}
		}
	}
	box := image.Rect(
		int(math.Floor(clampPixel(low[0]))), int(math.Floor(clampPixel(low[1]))),
		int(math.Ceil(clampPixel(high[0])))+1, int(math.Ceil(clampPixel(high[1])))+1,
	).Intersect(r.image.Bounds())
	if box.Empty() {
		return
	}
	z := &r.fonts.cover
	z.Reset(box.Dx(), box.Dy())
	z.DrawOp = draw.Src
	for _, ring := range rings {
		for i, q := range ring {
			x, y := float32(clampPixel(q[0])-float64(box.Min.X)), float32(clampPixel(q[1])-float64(box.Min.Y))
			if i == 0 {
				z.MoveTo(x, y)
			} else {
				z.LineTo(x, y)
			}
		}
		z.ClosePath()
	}
	pixels := box.Dx() * box.Dy()
	if len(r.fonts.mask) < pixels {
		r.fonts.mask = make([]uint8, pixels)
	}
	mask := &image.Alpha{Pix: r.fonts.mask[:pixels], Stride: box.Dx(), Rect: image.Rect(0, 0, box.Dx(), box.Dy())}
	z.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	lay(r.image, box, mask.Pix, ink)
}

// lay lays an ink over the pixels of a box, as much of each as is covered. Of lines and letters most of a box is not.
func lay(img *image.RGBA, box image.Rectangle, mask []uint8, ink color.RGBA) {
	const whole, run = 0xffff, 8
	red, green, blue, alpha := ink.RGBA()
	wide := box.Dx()
	for y := range box.Dy() {
		row := mask[y*wide : (y+1)*wide]
		pixels := img.Pix[img.PixOffset(box.Min.X, box.Min.Y+y):]
		for x := 0; x < wide; x++ {
			for x+run <= wide && binary.NativeEndian.Uint64(row[x:]) == 0 {
				x += run
			}
			if x == wide || row[x] == 0 {
				continue
			}
			p := pixels[4*x : 4*x+4 : 4*x+4]
			if row[x] == math.MaxUint8 && alpha == whole {
				p[0], p[1], p[2], p[3] = ink.R, ink.G, ink.B, ink.A
				continue
			}
			share := uint32(row[x]) * 0x101
			under := whole - alpha*share/whole
			for k, over := range [4]uint32{red, green, blue, alpha} {
				p[k] = uint8((uint32(p[k])*0x101*under + over*share) / whole >> 8)
			}
		}
	}
}

// leastStroke is the length under which a stroke is nothing.
const leastStroke = 1e-9

// clampPixel keeps far-off coordinates within what the rasterizer can add up.
func clampPixel(v float64) float64 { return math.Max(-8000, math.Min(16000, v)) }

func (r raster) Box(b placing.Box, ink color.RGBA) {
	draw.Draw(r.image, Pixels(b).Intersect(r.image.Bounds()), image.NewUniform(ink), image.Point{}, draw.Src)
}

// Pixels are those that a box touches.
func Pixels(b placing.Box) image.Rectangle {
	return image.Rect(int(math.Floor(b.Low[0])), int(math.Floor(b.Low[1])), int(math.Ceil(b.High[0])), int(math.Ceil(b.High[1])))
}

func (r raster) Stroke(lines []placing.Straight, width float64, ink color.RGBA) {
	const batch = 256
	for len(lines) > 0 {
		n := min(batch, len(lines))
		rings := make([][]placing.Point, 0, n)
		for _, l := range lines[:n] {
			dx, dy := l[1][0]-l[0][0], l[1][1]-l[0][1]
			length := math.Hypot(dx, dy)
			if length < leastStroke {
				continue
			}
			nx, ny := -dy/length*width/2, dx/length*width/2
			rings = append(rings, []placing.Point{
				{l[0][0] - nx, l[0][1] - ny}, {l[1][0] - nx, l[1][1] - ny},
				{l[1][0] + nx, l[1][1] + ny}, {l[0][0] + nx, l[0][1] + ny},
			})
		}
		r.Fill(rings, ink)
		lines = lines[n:]
	}
}

func (r raster) Text(text string, at placing.Point, size float64, face Face, ink color.RGBA) {
	f := r.fonts.in(size, face)
	if f == nil {
		return
	}
	d := font.Drawer{Dst: r.image, Src: image.NewUniform(ink), Face: f,
		Dot: fixed.Point26_6{X: fixed.Int26_6(at[0] * 64), Y: fixed.Int26_6(at[1] * 64)}}
	d.DrawString(text)
}

func (r raster) TextWidth(text string, size float64, face Face) float64 {
	f := r.fonts.in(size, face)
	if f == nil {
		return 0
	}
	return float64(font.MeasureString(f, text)) / 64
}

func (r raster) Picture(img image.Image, b placing.Box) {
	xdraw.CatmullRom.Scale(r.image, Pixels(b), img, img.Bounds(), draw.Over, nil)
}
