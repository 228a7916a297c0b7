package papers

import (
	"image"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/pen"
	"underfall/app/roomtest"
	"underfall/app/sheet"
	"underfall/app/theme"
	"underfall/assets"
)

// opened is the room with the first demo, and the drafts that it asked for.
func opened(t *testing.T) (b *roomtest.Bench, room *Room, drafts *[]func(image.Image)) {
	t.Helper()
	b = roomtest.New(t, roomtest.First(t))
	b.Until("a result", func() bool { return b.Change.Result.Assembly.Parts != nil })
	fonts, err := pen.NewFonts(assets.TextFont(), assets.BoldFont())
	if err != nil {
		t.Fatal(err)
	}
	drafts = new([]func(image.Image))
	r := b.Change.Result
	asked := sheet.Asked{Paper: sheet.Papers()[0], Made: time.Date(2026, 3, 4, 15, 16, 0, 0, time.UTC)}
	room = Open(Asks{Result: r, Answer: r.Answer(nil), Asked: asked,
		Words: theme.Book(), Fonts: fonts, Guard: b.Guard, Keys: control.NewKeys(), OnWindow: b.Do, Kept: fyne.CurrentApp().Preferences(),
		Draft: func(take func(image.Image)) { *drafts = append(*drafts, take) }})
	w := test.NewTempWindow(t, room.Object())
	w.Resize(fyne.NewSize(1000, 700))
	return b, room, drafts
}

// The customer's sheet alone asks for a quick picture, once, and has it when it comes.
func TestTheCustomersSheetHasADraft(t *testing.T) {
	b, room, drafts := opened(t)
	b.Until("a page", func() bool { _, of := room.Page(); return of > 0 })
	if len(*drafts) > 0 {
		t.Error("the fitter's sheet has a picture drawn")
	}
	for range 2 {
		room.Choose(string(sheet.Customer))
		room.Choose(string(sheet.Order))
	}
	room.Choose(string(sheet.Customer))
	if len(*drafts) != 1 || room.draft != nil {
		t.Fatalf("%d drafts are asked for, one is there: %v", len(*drafts), room.draft != nil)
	}
	(*drafts)[0](image.NewRGBA(image.Rect(0, 0, 30, 14)))
	if room.draft == nil {
		t.Error("the draft is not taken")
	}
	b.Until("the customer's page", func() bool { page, of := room.Page(); return page == 1 && of == 1 })
}

// Another sheet begins at its first page, though a page of the one before is still being drawn.
func TestAnotherSheetBeginsAtItsFirstPage(t *testing.T) {
	b, room, _ := opened(t)
	b.Until("a page", func() bool { _, of := room.Page(); return of > 2 })
	_, of := room.Page()
	for range of {
		room.Key(fyne.KeyPageDown)
	}
	room.Choose(string(sheet.Order))
	b.Until("the order", func() bool { page, n := room.Page(); return page == 1 && n < of })
}
