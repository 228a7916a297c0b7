package pen

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"strconv"
	"strings"

	"underfall/geometry/placing"
)

// SVG is one page of vectors, in points of 1/72 inch. Its texts stay texts, as wide as they were measured whatever font shows them.
type SVG struct {
	fonts      *Fonts
	wide, high float64
	body       bytes.Buffer
	err        error
}

// NewSVG is a page so wide and high; fonts measure its texts.
func NewSVG(fonts *Fonts, wide, high float64) *SVG { return &SVG{fonts: fonts, wide: wide, high: high} }

// Write writes the page. The error is the first that anything drawn made, or of writing.
func (s *SVG) Write(to io.Writer) error {
	if s.err != nil {
		return fmt.Errorf("drawing an SVG: %w", s.err)
	}
	head := fmt.Sprintf(`<?xml version="1.0" encoding="UTF-8"?>`+"\n"+`<svg xmlns="http://www.w3.org/2000/svg" width="%spt" height="%spt" viewBox="0 0 %s %s">`+"\n",
		number(s.wide), number(s.high), number(s.wide), number(s.high))
	for _, part := range [][]byte{[]byte(head), s.body.Bytes(), []byte("</svg>\n")} {
		if _, err := to.Write(part); err != nil {
			return fmt.Errorf("writing an SVG: %w", err)
		}
	}
	return nil
}

// number is written to a thousandth of a point.
func number(v float64) string {
	text := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 3, 64), "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

func hexOf(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// path writes chains of places as a path's data; they are closed where ends tells so.
func path(chains [][]placing.Point, end string) string {
	var d strings.Builder
	for _, chain := range chains {
		for i, q := range chain {
			step := "L"
			if i == 0 {
				step = "M"
			}
			d.WriteString(step + number(q[0]) + " " + number(q[1]))
		}
		d.WriteString(end)
	}
	return d.String()
}

// Fill fills rings.
func (s *SVG) Fill(rings [][]placing.Point, ink color.RGBA) {
	if len(rings) > 0 {
		fmt.Fprintf(&s.body, `<path d="%s" fill="%s"/>`+"\n", path(rings, "Z"), hexOf(ink))
	}
}

// Box fills a box.
func (s *SVG) Box(b placing.Box, ink color.RGBA) {
	fmt.Fprintf(&s.body, `<rect x="%s" y="%s" width="%s" height="%s" fill="%s"/>`+"\n", number(b.Low[0]), number(b.Low[1]),
		number(b.High[0]-b.Low[0]), number(b.High[1]-b.Low[1]), hexOf(ink))
}

// Stroke draws straights.
func (s *SVG) Stroke(lines []placing.Straight, width float64, ink color.RGBA) {
	var chains [][]placing.Point
	for _, l := range lines {
		if l.Length() >= leastStroke {
			chains = append(chains, l[:])
		}
	}
	if len(chains) > 0 {
		fmt.Fprintf(&s.body, `<path d="%s" fill="none" stroke="%s" stroke-width="%s"/>`+"\n", path(chains, ""), hexOf(ink), number(width))
	}
}

// Text writes.
func (s *SVG) Text(text string, at placing.Point, size float64, face Face, ink color.RGBA) {
	weight := ""
	if face == Bold {
		weight = ` font-weight="bold"`
	}
	fmt.Fprintf(&s.body, `<text x="%s" y="%s" font-family="Noto Sans, sans-serif" font-size="%s"%s fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs">`,
		number(at[0]), number(at[1]), number(size), weight, hexOf(ink), number(s.TextWidth(text, size, face)))
	if err := xml.EscapeText(&s.body, []byte(text)); err != nil && s.err == nil {
		s.err = err
	}
	s.body.WriteString("</text>\n")
}

// TextWidth is how wide a text is.
func (s *SVG) TextWidth(text string, size float64, face Face) float64 {
	return s.fonts.On(nil).TextWidth(text, size, face)
}

// Picture puts a picture into a box.
func (s *SVG) Picture(img image.Image, b placing.Box) {
	var data bytes.Buffer
	if err := png.Encode(&data, img); err != nil {
		if s.err == nil {
			s.err = err
		}
		return
	}
	fmt.Fprintf(&s.body, `<image x="%s" y="%s" width="%s" height="%s" preserveAspectRatio="none" href="data:image/png;base64,%s"/>`+"\n",
		number(b.Low[0]), number(b.Low[1]), number(b.High[0]-b.Low[0]), number(b.High[1]-b.Low[1]),
		base64.StdEncoding.EncodeToString(data.Bytes()))
}
