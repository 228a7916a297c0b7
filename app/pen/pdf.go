package pen

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"io"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"underfall/geometry/placing"
)

// PDF is a document of pages that are drawn one after the other, in points of 1/72 inch. Its fonts
// are embedded, only what is written of them; its texts can be searched.
type PDF struct {
	f        *fpdf.Fpdf
	pictures map[image.Image]string // by what they are called in the file
}

// NewPDF is a document without a page, written with two TrueType fonts and told by its title and the language of
// its words, as BCP 47 has it; made is when it says it was made.
func NewPDF(regular, bold []byte, title, language string, made time.Time) *PDF {
	f := fpdf.New("P", "pt", "A4", "")
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetCatalogSort(true) // the same pages make the same file
	f.SetCreationDate(made)
	f.SetModificationDate(made)
	f.SetTitle(title, true)
	f.SetLang(language)
	f.SetCreator("Underfall", true)
	f.AddUTF8FontFromBytes(pdfFamily, pdfStyle(Regular), regular)
	f.AddUTF8FontFromBytes(pdfFamily, pdfStyle(Bold), bold)
	f.SetLineCapStyle("butt")
	return &PDF{f, map[image.Image]string{}}
}

const pdfFamily = "text"

func pdfStyle(face Face) string {
	if face == Bold {
		return "B"
	}
	return ""
}

// Page begins a page, so wide and high in points. What is drawn comes onto the last one.
func (p *PDF) Page(wide, high float64) {
	p.f.AddPageFormat("P", fpdf.SizeType{Wd: wide, Ht: high})
}

// Write writes the document; after it nothing can be drawn any more. The error is the first that anything
// drawn made.
func (p *PDF) Write(to io.Writer) error {
	if err := p.f.Output(to); err != nil {
		return fmt.Errorf("writing a PDF: %w", err)
	}
	return nil
}

// Fill fills rings.
func (p *PDF) Fill(rings [][]placing.Point, ink color.RGBA) {
	drawn := false
	for _, ring := range rings {
		for i, q := range ring {
			if i == 0 {
				p.f.MoveTo(q[0], q[1])
			} else {
				p.f.LineTo(q[0], q[1])
			}
		}
		if len(ring) > 0 {
			p.f.ClosePath()
			drawn = true
		}
	}
	if drawn {
		p.f.SetFillColor(int(ink.R), int(ink.G), int(ink.B))
		p.f.DrawPath("F")
	}
}

// Box fills a box.
func (p *PDF) Box(b placing.Box, ink color.RGBA) {
	p.f.SetFillColor(int(ink.R), int(ink.G), int(ink.B))
	p.f.Rect(b.Low[0], b.Low[1], b.High[0]-b.Low[0], b.High[1]-b.Low[1], "F")
}

// Stroke draws straights.
func (p *PDF) Stroke(lines []placing.Straight, width float64, ink color.RGBA) {
	p.f.SetLineWidth(width)
	p.f.SetDrawColor(int(ink.R), int(ink.G), int(ink.B))
	drawn := false
	for _, l := range lines {
		if l.Length() < leastStroke {
			continue
		}
		p.f.MoveTo(l[0][0], l[0][1])
		p.f.LineTo(l[1][0], l[1][1])
		drawn = true
	}
	if drawn {
		p.f.DrawPath("D")
	}
}

// Text writes.
func (p *PDF) Text(text string, at placing.Point, size float64, face Face, ink color.RGBA) {
	p.f.SetFont(pdfFamily, pdfStyle(face), size)
	p.f.SetTextColor(int(ink.R), int(ink.G), int(ink.B))
	p.f.Text(at[0], at[1], text)
}

// TextWidth is how wide a text is.
func (p *PDF) TextWidth(text string, size float64, face Face) float64 {
	p.f.SetFont(pdfFamily, pdfStyle(face), size)
	return p.f.GetStringWidth(text)
}

// Picture puts a picture into a box, on white; one that is put in again is in the file once.
func (p *PDF) Picture(img image.Image, b placing.Box) {
	as := fpdf.ImageOptions{ImageType: "JPG"}
	name, known := p.pictures[img]
	if !known {
		const quality = 92
		flat := image.NewRGBA(img.Bounds())
		draw.Draw(flat, flat.Rect, image.White, image.Point{}, draw.Src)
		draw.Draw(flat, flat.Rect, img, img.Bounds().Min, draw.Over)
		var data bytes.Buffer
		if err := jpeg.Encode(&data, flat, &jpeg.Options{Quality: quality}); err != nil {
			p.f.SetError(fmt.Errorf("putting a picture into a PDF: %w", err))
			return
		}
		name = "picture " + strconv.Itoa(len(p.pictures)+1)
		p.pictures[img] = name
		p.f.RegisterImageOptionsReader(name, as, &data)
	}
	p.f.ImageOptions(name, b.Low[0], b.Low[1], b.High[0]-b.Low[0], b.High[1]-b.Low[1], false, as, 0, "")
}
