package tag_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/tag"
	"underfall/geometry/unit"
)

// layer is one in a window of its own, with a tag of a thing in it.
func layer(t *testing.T, size fyne.Size, of tag.Thing, fields int) (*tag.Layer, fyne.CanvasObject) {
	t.Helper()
	l := tag.NewLayer(control.NewKeys())
	w := test.NewTempWindow(t, l)
	w.SetPadded(false)
	w.Resize(size)
	c := tag.Content{Title: "Doorway 1", Ways: []tag.Way{{Text: "All its fields"}}}
	for range fields {
		c.Fields = append(c.Fields, control.NewField(nil, control.Number{Label: "From corner AB", Kind: unit.Length}, control.Words{}, control.Intents{}))
	}
	l.Open(c, of)
	return l, l.Inside()[0]
}

// around is a thing of a size about a place.
func around(x, y, wide, high float32) tag.Thing {
	return tag.Thing{Low: fyne.NewPos(x-wide/2, y-high/2), High: fyne.NewPos(x+wide/2, y+high/2), At: fyne.NewPos(x, y)}
}

// meet tells whether a tag lies on its thing.
func meet(o fyne.CanvasObject, of tag.Thing) bool {
	at, end := o.Position(), o.Position().Add(o.Size())
	return at.X < of.High.X && of.Low.X < end.X && at.Y < of.High.Y && of.Low.Y < end.Y
}

// Wherever a thing lies in a drawing of the size it has at 1280 × 800, and of the least that it has, its tag lies
// beside it and all within the drawing; also where all is large.
func TestTagsLieBesideTheirThings(t *testing.T) {
	for _, large := range []bool{false, true} {
		th := roomtest.British(t)
		th.SetLarge(large)
		for _, size := range []fyne.Size{{Width: 430, Height: 316}, {Width: 690, Height: 268}, {Width: 900, Height: 620}} {
			for x := float32(20); x < size.Width; x += size.Width / 5 {
				for y := float32(12); y < size.Height; y += size.Height / 4 {
					of := around(x, y, 30, 14)
					l, card := layer(t, size, of, 2)
					if meet(card, of) {
						t.Errorf("large %v, %v: the tag at %v of %v lies on its thing at %v", large, size, card.Position(), card.Size(), of.At)
					}
					if end := card.Position().Add(card.Size()); card.Position().X < 0 || card.Position().Y < 0 || end.X > size.Width || end.Y > size.Height {
						t.Errorf("large %v, %v: the tag at %v of %v runs out", large, size, card.Position(), card.Size())
					}
					l.Close()
				}
			}
		}
	}
}

// A thing that is all there is to see is covered, and the tag is still all there.
func TestTagOnWhatFillsTheDrawing(t *testing.T) {
	roomtest.British(t)
	_, card := layer(t, fyne.NewSize(430, 316), around(215, 158, 2000, 2000), 3)
	if end := card.Position().Add(card.Size()); card.Position().X < 0 || card.Position().Y < 0 || end.X > 430 || end.Y > 316 {
		t.Errorf("the tag at %v of %v runs out", card.Position(), card.Size())
	}
}

// A tag follows its thing only where it would lie on it, and not while something is typed on it.
func TestTagFollows(t *testing.T) {
	roomtest.British(t)
	of := around(60, 200, 30, 14)
	l, card := layer(t, fyne.NewSize(690, 400), of, 1)
	was := card.Position()
	of = around(70, 200, 30, 14)
	l.Follow(of, false)
	if card.Position() != was {
		t.Errorf("from %v to %v, though its thing is beside it", was, card.Position())
	}
	under := around(was.X+20, was.Y+20, 30, 14)
	l.Follow(under, true)
	if card.Position() != was {
		t.Errorf("from %v to %v while it is typed on", was, card.Position())
	}
	l.Follow(under, false)
	if meet(card, under) {
		t.Errorf("the tag at %v lies on its thing", card.Position())
	}
}

// What a pointer does on the tag ends there; beside it, it goes to the drawing under the layer.
func TestTagTakesWhatIsPressedOnIt(t *testing.T) {
	roomtest.British(t)
	l, card := layer(t, fyne.NewSize(690, 400), around(60, 200, 30, 14), 1)
	if !l.IsOpen() || len(l.Fields()) != 1 {
		t.Fatal("no tag")
	}
	if _, takes := card.(*fyne.Container).Objects[0].(fyne.Tappable); !takes {
		t.Error("a press on the tag goes through it")
	}
	if _, takes := fyne.CanvasObject(l).(fyne.Tappable); takes {
		t.Error("a press beside the tag goes to the layer")
	}
	l.Close()
	if l.IsOpen() || len(l.Inside()) > 0 || len(l.Fields()) > 0 {
		t.Error("the tag is still there")
	}
	l.Close() // once more, which does nothing
}

// A field that stands on its thing has its middle there, as far as the layer goes.
func TestFieldInPlace(t *testing.T) {
	roomtest.British(t)
	of := around(300, 200, 40, 16)
	of.On = true
	l := tag.NewLayer(control.NewKeys())
	w := test.NewTempWindow(t, l)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(690, 400))
	l.Open(tag.Content{Fields: []fyne.CanvasObject{canvas.NewRectangle(nil)}}, of)
	card := l.Inside()[0]
	middle := card.Position().AddXY(card.Size().Width/2, card.Size().Height/2)
	if middle != of.At {
		t.Errorf("%v, want %v", middle, of.At)
	}
}

// A room that is narrow or low in its drawing is not covered by the tag of its wall with three fields: it stands beside
// it in a column, or over or under it in a row. By hand: beside a room of 140 in 430 there are 145, a column takes 132;
// under one of 190 in 316 there are 126 less what is let free, a row takes some 110.
func TestTagsLeaveNarrowRooms(t *testing.T) {
	roomtest.British(t)
	for what, room := range map[string][2]fyne.Position{
		"narrow": {fyne.NewPos(145, 40), fyne.NewPos(285, 280)}, "low": {fyne.NewPos(20, 4), fyne.NewPos(410, 184)},
	} {
		low, high := room[0], room[1]
		corners := [4]fyne.Position{low, fyne.NewPos(high.X, low.Y), high, fyne.NewPos(low.X, high.Y)}
		of := tag.Thing{Low: fyne.NewPos(low.X, high.Y-8), High: high, At: fyne.NewPos((low.X+high.X)/2, high.Y-4)}
		for i, c := range corners {
			of.Lines = append(of.Lines, [2]fyne.Position{c, corners[(i+1)%4]})
		}
		for y := low.Y; y < high.Y; y += 20 { // joists
			of.Lines = append(of.Lines, [2]fyne.Position{fyne.NewPos(low.X, y), fyne.NewPos(high.X, y)})
		}
		l, card := layer(t, fyne.NewSize(430, 316), of, 3)
		at, end := card.Position(), card.Position().Add(card.Size())
		if at.X < high.X && low.X < end.X && at.Y < high.Y && low.Y < end.Y {
			t.Errorf("%s: the tag at %v of %v lies over the room", what, at, card.Size())
		}
		if at.X < 0 || at.Y < 0 || end.X > 430 || end.Y > 316 {
			t.Errorf("%s: the tag at %v of %v runs out", what, at, card.Size())
		}
		for _, f := range l.Fields() {
			if wide := f.MinSize().Width; f.Size().Width < wide {
				t.Errorf("%s: a field has %v and needs %v", what, f.Size().Width, wide)
			}
		}
		l.Close()
	}
}

// Where a column is a little higher than its drawing its fields end before the bar that tells so: beside a room of 140 in 430
// there are 145, and a window's tag is a column of 141.
func TestFieldsEndBeforeTheBar(t *testing.T) {
	roomtest.British(t)
	l := tag.NewLayer(control.NewKeys())
	w := test.NewTempWindow(t, l)
	w.SetPadded(false)
	scrolled := 0
	for high := float32(230); high < 330; high += 8 {
		w.Resize(fyne.NewSize(440, high))
		of := tag.Thing{Low: fyne.NewPos(155, 20), High: fyne.NewPos(285, high-20), At: fyne.NewPos(220, high/2)}
		for y := of.Low.Y; y < of.High.Y; y += 10 {
			of.Lines = append(of.Lines, [2]fyne.Position{fyne.NewPos(of.Low.X, y), fyne.NewPos(of.High.X, y)})
		}
		c := tag.Content{Title: "Window 1", Ways: []tag.Way{{Text: "Remove window"}, {Text: "All its fields"}}}
		for range 3 {
			sill := control.Number{Label: "Sill level", Kind: unit.Length}
			c.Fields = append(c.Fields, control.NewField(nil, sill, control.Words{}, control.Intents{}))
		}
		l.Open(c, of)
		roomtest.NewFrames().Settle(l)
		bar := float32(0)
		roomtest.EachShown(l, func(o fyne.CanvasObject) {
			if s, ok := o.(*control.Scroller); ok && s.Content.MinSize().Height > s.Size().Height {
				scrolled++
				bar = fyne.CurrentApp().Driver().AbsolutePositionForObject(s).X + s.Size().Width - 4
			}
		})
		for _, f := range l.Fields() {
			if is := fyne.CurrentApp().Driver().AbsolutePositionForObject(f).X + f.Size().Width; bar > 0 && is > bar {
				t.Errorf("%v high: a field ends at %v, the bar begins at %v", high, is, bar)
			}
		}
	}
	if scrolled == 0 {
		t.Error("no tag had to be scrolled")
	}
}
