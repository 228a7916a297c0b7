package pen

import (
	"fmt"
	"image"
	"image/color"
	"io"
	"strings"

	"github.com/yofu/dxf/drawing"
	"github.com/yofu/dxf/entity"
	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/insunit"
	"github.com/yofu/dxf/table"
	"underfall/geometry/placing"
)

// DXF is a drawing for programs that draw, of ASCII DXF as of the year 2000: in millimetres of what is drawn, up as the drawing has it;
// areas, lines and texts each on a layer. What is only paper under a text is left out, and so are pictures.
type DXF struct {
	fonts  *Fonts
	to     func(placing.Point) placing.Point
	perMM  float64
	paper  color.RGBA
	d      *drawing.Drawing
	layers [3]*table.Layer
}

const (
	dxfAreas = iota
	dxfLines
	dxfTexts
)

// NewDXF is an empty drawing. to gives the millimetres of a place of the page, up; perMM is how many of the page's units a
// millimetre has; paper is the ink of what is left out.
func NewDXF(fonts *Fonts, to func(placing.Point) placing.Point, perMM float64, paper color.RGBA) (*DXF, error) {
	out := &DXF{fonts: fonts, to: to, perMM: perMM, paper: paper, d: drawing.New()}
	out.d.Header().InsUnit = insunit.Millimeters
	for i, name := range [...]string{dxfAreas: "AREAS", dxfLines: "LINES", dxfTexts: "TEXTS"} {
		const black = 7 // or white, against the ground
		layer, err := out.d.AddLayer(name, black, table.LT_CONTINUOUS, false)
		if err != nil {
			return nil, fmt.Errorf("making a layer of a DXF: %w", err)
		}
		out.layers[i] = layer
	}
	return out, nil
}

// Write writes the drawing.
func (x *DXF) Write(to io.Writer) error {
	if _, err := x.d.WriteTo(to); err != nil {
		return fmt.Errorf("writing a DXF: %w", err)
	}
	return nil
}

// add puts an entity on a layer.
func (x *DXF) add(e entity.Entity, layer int) {
	e.SetLayer(x.layers[layer])
	x.d.AddEntity(e)
}

// hatch is a filled area: what a HATCH has in common with other entities is taken from a polyline.
type hatch struct {
	*entity.LwPolyline
	rings [][]placing.Point
	ink   color.RGBA
}

// Format writes it, with closed polylines as bounds, filled by turns from the outside in.
func (h hatch) Format(f format.Formatter) {
	f.WriteString(0, "HATCH")
	f.WriteHex(5, h.Handle())
	f.WriteString(100, "AcDbEntity")
	f.WriteString(8, h.Layer().Name())
	f.WriteInt(420, int(h.ink.R)<<16|int(h.ink.G)<<8|int(h.ink.B))
	f.WriteString(100, "AcDbHatch")
	for code, v := range []float64{0, 0, 0} { // elevation
		f.WriteFloat(10*(code+1), v)
	}
	for code, v := range []float64{0, 0, 1} { // extrusion
		f.WriteFloat(210+10*code, v)
	}
	f.WriteString(2, "SOLID")
	f.WriteInt(70, 1) // solid
	f.WriteInt(71, 0) // not associative
	f.WriteInt(91, len(h.rings))
	for i, ring := range h.rings {
		const polyline, external, hole = 2, 1, 16
		kind := polyline | hole
		if i == 0 {
			kind = polyline | external
		}
		f.WriteInt(92, kind)
		f.WriteInt(72, 0) // without bulges
		f.WriteInt(73, 1) // closed
		f.WriteInt(93, len(ring))
		for _, q := range ring {
			f.WriteFloat(10, q[0])
			f.WriteFloat(20, q[1])
		}
		f.WriteInt(97, 0)
	}
	f.WriteInt(75, 0) // by turns
	f.WriteInt(76, 1) // predefined
	f.WriteInt(98, 0) // no seeds
}

// Fill fills rings.
func (x *DXF) Fill(rings [][]placing.Point, ink color.RGBA) {
	var bounds [][]placing.Point
	for _, ring := range rings {
		var bound []placing.Point
		for _, q := range ring {
			bound = append(bound, x.to(q))
		}
		if len(bound) > 2 {
			bounds = append(bounds, bound)
		}
	}
	if len(bounds) > 0 {
		x.add(hatch{entity.NewLwPolyline(0), bounds, ink}, dxfAreas)
	}
}

// Box fills a box, unless it is paper.
func (x *DXF) Box(b placing.Box, ink color.RGBA) {
	if ink != x.paper {
		x.Fill([][]placing.Point{b.Corners()}, ink)
	}
}

// Stroke draws straights; they have neither width nor a colour of their own.
func (x *DXF) Stroke(lines []placing.Straight, _ float64, _ color.RGBA) {
	for _, l := range lines {
		if l.Length() < leastStroke {
			continue
		}
		a, b := x.to(l[0]), x.to(l[1])
		line := entity.NewLine()
		line.Start, line.End = []float64{a[0], a[1], 0}, []float64{b[0], b[1], 0}
		x.add(line, dxfLines)
	}
}

// Text writes, with capitals as high as those of the page.
func (x *DXF) Text(text string, at placing.Point, size float64, _ Face, _ color.RGBA) {
	const capitals = 0.714 // of a size, as in Noto Sans
	p := x.to(at)
	t := entity.NewText()
	t.Coord1, t.Height, t.Value = []float64{p[0], p[1], 0}, capitals*size/x.perMM, asciiDXF(text)
	t.WidthFactor = 1
	x.add(t, dxfTexts)
}

// asciiDXF writes what is not ASCII by its number, as files of that year have it.
func asciiDXF(text string) string {
	var out strings.Builder
	for _, r := range text {
		const lastASCII = 0x7e
		switch {
		case r < ' ':
			out.WriteByte(' ')
		case r <= lastASCII:
			out.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&out, `\U+%04X`, r)
		default:
			out.WriteByte('?')
		}
	}
	return out.String()
}

// TextWidth is how wide a text is.
func (x *DXF) TextWidth(text string, size float64, face Face) float64 {
	return x.fonts.On(nil).TextWidth(text, size, face)
}

// Picture is left out.
func (x *DXF) Picture(image.Image, placing.Box) {}
