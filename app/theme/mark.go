package theme

import (
	"image"
	"math"
	"sync"

	fynetheme "fyne.io/fyne/v2/theme"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"underfall/geometry"
)

// Mark is a sign of the window and of drawings, drawn anew for every size so that it is sharp.
type Mark struct {
	Kind Kind
	// Text stands in marks that carry one: a wall's letter, a corner's two, a level's figure.
	Text string
	// Of says how many of the twenty cells of a chance are full, and how far along a gliding
	// bubble has come, in hundredths.
	Of int
	// Long is how many times its height the strip of a chance is long; zero for as usual.
	Long float64
	// Ink is the colour of an icon; zero for the one of text.
	Ink Role
}

// Kind of a mark.
type Kind uint8

// The kinds. The first four are a vial: it tells a standing by its shape and its fill, colour
// only helps.
const (
	VialSound   Kind = iota // round, filled, the bubble between the lines
	VialTight               // round, open, the bubble over a line
	VialStops               // square, filled, the bubble out at the end, a bar
	VialUnknown             // a broken outline with a question mark
	Note                    // an open ring
	Licensed                // a tag with a hole: for a qualified person
	Level                   // a staff's foot with its figure on a plate
	Step                    // a riser to be climbed
	Lip                     // a riser to trip over
	Flush                   // no riser
	Cut                     // where it is cut, with flags that point the way one looks
	Wall                    // a disc with its letter
	Corner                  // a ring with the letters of its two walls
	Reading                 // a triangle that stands on its point
	Handle                  // what is dragged
	Chance                  // a strip of twenty cells
	IconUndo
	IconRedo
	IconShelf
	IconPaper
	IconRuler
	IconPlus
	IconMinus
	IconLight
	IconMore
	IconDown // opens a list
	IconTick
	IconClose
	kindCount
)

// Chances has so many cells, of five in a hundred each.
const chanceCells = 20

// VialOf is the vial of a standing; a note's ring where there is none.
func VialOf(s geometry.Standing) Mark {
	switch s {
	case geometry.Sound:
		return Mark{Kind: VialSound}
	case geometry.Tight:
		return Mark{Kind: VialTight}
	case geometry.Stops:
		return Mark{Kind: VialStops}
	case geometry.NotKnown:
		return Mark{Kind: VialUnknown}
	}
	return Mark{Kind: Note}
}

// OfStanding is the colour of a standing and of the ground under it.
func OfStanding(s geometry.Standing) (mark, ground Role) {
	switch s {
	case geometry.Sound:
		return Sound, SoundGround
	case geometry.Tight:
		return Tight, TightGround
	case geometry.Stops:
		return Stops, StopsGround
	case geometry.NotKnown:
		return Unknown, UnknownGround
	}
	return Caption, Sheet
}

// ChanceOf is the strip for so many in a hundred, rounded to whole cells; it is full only
// where all come right, and empty only where none does.
func ChanceOf(inHundred int) Mark {
	cells := int(math.Round(float64(inHundred) * chanceCells / 100))
	switch {
	case inHundred >= 100:
		cells = chanceCells
	case inHundred > 0:
		cells = min(max(1, cells), chanceCells-1)
	default:
		cells = 0
	}
	return Mark{Kind: Chance, Of: cells}
}

// vialHigh is the height of a vial in its width.
const vialHigh = 0.45

// Natural is how wide a mark is usually, and how high in its width.
func (m Mark) Natural() (width, high float64) {
	switch m.Kind {
	case VialSound, VialTight, VialStops, VialUnknown, Note:
		return 44, vialHigh
	case Licensed:
		return 44, vialHigh
	case Level:
		w := max(40, 11+8*float64(len([]rune(m.Text))))
		return w, 46 / w
	case Step, Lip, Flush:
		return 66, 40.0 / 66
	case Cut:
		return 20, 3.2
	case Wall:
		return 22, 1
	case Corner:
		return 38, 1
	case Reading:
		return 14, 12.0 / 14
	case Handle:
		return 14, 1
	case Chance:
		if m.Long > 0 {
			return 13 * m.Long, 1 / m.Long
		}
		return 180, 13.0 / 180
	}
	return iconGrid, 1
}

// asked is a mark as it was asked for.
type asked struct {
	mark   Mark
	dark   bool
	w, h   int
	pixels float64
}

// marks keeps what was drawn.
type marks struct {
	sync.Mutex
	drawn map[asked]*image.RGBA
	fonts fonts
}

// mostMarks is how many pictures of marks are kept; beyond it all are drawn anew.
const mostMarks = 512

// Picture is a mark so many units wide, as pixels on a screen with so many to a unit. It is
// drawn once and must not be drawn into.
func (t *Theme) Picture(m Mark, width, pixels float64) *image.RGBA {
	_, high := m.Natural()
	return t.marks.picture(asked{m, t.dark, int(math.Ceil(width * pixels)), int(math.Ceil(width * high * pixels)), pixels}, width)
}

func (k *marks) picture(a asked, width float64) *image.RGBA {
	k.Lock()
	defer k.Unlock()
	if img, ok := k.drawn[a]; ok {
		return img
	}
	if k.drawn == nil || len(k.drawn) >= mostMarks {
		k.drawn = map[asked]*image.RGBA{}
	}
	p := &pen{img: image.NewRGBA(image.Rect(0, 0, max(1, a.w), max(1, a.h))), pixels: a.pixels, fonts: &k.fonts}
	p.mark(a.mark, width, a.dark)
	k.drawn[a] = p.img
	return p.img
}

// mark draws a mark so many units wide.
func (p *pen) mark(m Mark, width float64, dark bool) {
	natural, high := m.Natural()
	switch m.Kind {
	case VialSound, VialTight, VialStops, VialUnknown:
		p.vial(m, width, dark)
		return
	case Chance:
		p.chance(m.Of, width, width*high, dark)
		return
	case Note:
		h := width * high
		p.ring(Caption.In(dark), max(1.4, width/22), arc(at{width / 2, h / 2}, h*0.34, h*0.34, 0, 360)[1:])
		return
	}
	p.pixels *= width / natural // the others are drawn at their usual size
	if m.Kind >= IconUndo {
		ink := Ink.In(dark)
		if m.Ink != 0 {
			ink = m.Ink.In(dark)
		}
		p.icon(m.Kind, ink)
		return
	}
	p.sign(m, natural, natural*high, dark)
}

// fonts are the type that stands in marks, by its size.
type fonts struct {
	font  *opentype.Font
	faces map[int]font.Face
}

// bold is the bold type of a size in pixels; nil where it cannot be read.
func (f *fonts) bold(pixels float64) font.Face {
	const sizes = 4 // to a pixel
	key := int(math.Round(pixels * sizes))
	if face, ok := f.faces[key]; ok {
		return face
	}
	if f.font == nil {
		parsed, err := opentype.Parse(fynetheme.DefaultTextBoldFont().Content())
		if err != nil {
			return nil
		}
		f.font, f.faces = parsed, map[int]font.Face{}
	}
	face, err := opentype.NewFace(f.font, &opentype.FaceOptions{Size: float64(key) / sizes, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		return nil
	}
	f.faces[key] = face
	return face
}
