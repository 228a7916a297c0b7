package paint_test

import (
	"image"
	"testing"

	"underfall/app/paint"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// inked counts the pixels of a stretch of rows that are not paper.
func inked(img *image.RGBA, from, to int) int {
	n := 0
	for y := from; y < to; y++ {
		for x := range img.Rect.Dx() {
			if img.RGBAAt(x, y) != white {
				n++
			}
		}
	}
	return n
}

// A drawing that is not as it should be says so over its top, in lines that stay
// on the picture however narrow it is; a sound one says nothing.
func TestFaultIsWrittenOverTheDrawing(t *testing.T) {
	draw := func(width int, fault message.Message) *image.RGBA {
		img := image.NewRGBA(image.Rect(0, 0, width, 200))
		v := paint.View{PixelsPerMM: 1, Width: width, Height: 200}
		painter(t).Draw(img, section.Drawing{Fault: fault}, v, style(unit.Metric))
		return img
	}
	fault := section.Fault(&plan.Failure{What: message.Of("shape.part-without", message.In("part", message.Of("part.base")), message.In("less", message.Of("part.trap")))}, section.FaultOfCut)
	if n := inked(draw(600, message.Message{}), 0, 200); n > 0 {
		t.Errorf("a sound drawing has %d inked pixels", n)
	}
	wide, narrow := draw(900, fault), draw(260, fault)
	if inked(wide, 0, 40) < 200 || inked(wide, 60, 200) > 0 {
		t.Errorf("wide: %d inked pixels in the first line, %d below", inked(wide, 0, 40), inked(wide, 60, 200))
	}
	if inked(narrow, 40, 120) < 200 {
		t.Errorf("narrow: %d inked pixels in further lines", inked(narrow, 40, 120))
	}
	for y := range 200 {
		if narrow.RGBAAt(259, y) != white {
			t.Fatalf("a line runs off the picture at %d", y)
		}
	}
	if a, b := inked(draw(900, message.Lines(fault, fault)), 0, 200), inked(wide, 0, 200); a < b*3/2 {
		t.Errorf("two faults have %d inked pixels, one %d", a, b)
	}
	painter(t).Say(image.NewRGBA(image.Rect(0, 0, 3, 3)), style(unit.Metric), message.Lines(fault, fault, fault, fault, fault, fault, fault, fault, fault))
}
