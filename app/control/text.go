package control

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/app/words"
)

// Text is a text of any size and role, in one line, or in as many as its width asks for. It is
// never cut short.
type Text struct {
	widget.BaseWidget
	Lead     string // in bold, before the text
	Text     string
	TextSize float32 // in units
	Bold     bool
	Role     theme.Role // zero, Paper, is text on ink; NewText makes it Ink
	Align    fyne.TextAlign
	Wrap     bool
}

// NewText makes a text in one line.
func NewText(text string) *Text {
	t := &Text{Text: text, TextSize: theme.TextBody, Role: theme.Ink}
	t.ExtendBaseWidget(t)
	return t
}

// NewWrapped makes a text in as many lines as it takes.
func NewWrapped(text string) *Text {
	t := NewText(text)
	t.Wrap = true
	return t
}

// Styled is the text in a size, bold or not, and a role.
func (t *Text) Styled(size float32, bold bool, role theme.Role) *Text {
	t.TextSize, t.Bold, t.Role = size, bold, role
	return t
}

// SetText changes what it says.
func (t *Text) SetText(text string) {
	t.Text = text
	t.Refresh()
}

// WidestLine is how wide the text is in one line.
func (t *Text) WidestLine() float32 {
	size := theme.Of(t).Text(t.TextSize)
	widest := float32(0)
	for _, line := range broken(t.words(), 0, size) {
		widest = max(widest, line.width)
	}
	return widest
}

// AccessibilityLabel is the text.
func (t *Text) AccessibilityLabel() string { return strings.TrimSpace(t.Lead + " " + t.Text) }

// AccessibilityRole tells that it is one.
func (t *Text) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// word is a part of a text between spaces; ends tells that a line ends behind it.
type word struct {
	text string
	bold bool
	ends bool
}

func (t *Text) words() (out []word) {
	add := func(text string, bold bool) {
		for i, line := range strings.Split(text, "\n") {
			if i > 0 && len(out) > 0 {
				out[len(out)-1].ends = true
			}
			for _, w := range words.Apart(line) {
				out = append(out, word{text: w, bold: bold})
			}
		}
	}
	add(t.Lead, true)
	add(t.Text, t.Bold)
	return out
}

// line is one line of a text: pieces of it beside each other.
type line struct {
	pieces []piece
	width  float32
}

type piece struct {
	text    string
	bold    bool
	x, wide float32
}

func wide(text string, size float32, bold bool) float32 {
	return fyne.MeasureText(text, size, fyne.TextStyle{Bold: bold}).Width
}

// broken puts words into lines no wider than a width, or in as few as they ask for themselves
// where it is 0. A word that is wider has a line of its own.
func broken(words []word, width, size float32) []line {
	var lines []line
	var now line
	end := func() {
		if len(now.pieces) > 0 {
			lines = append(lines, now)
		}
		now = line{}
	}
	for len(words) > 0 {
		row := oneRow(words)
		bold, x := row[0].bold, float32(0)
		if len(now.pieces) > 0 {
			x = now.width + wide(" ", size, bold)
		}
		n := fitting(row, x, width, size)
		if n == 0 && len(now.pieces) > 0 {
			end()
			continue
		}
		n = max(n, 1)
		text := joined(row[:n])
		now.width = x + wide(text, size, bold)
		now.pieces = append(now.pieces, piece{text, bold, x, now.width - x})
		if n < len(row) || row[n-1].ends {
			end()
		}
		words = words[n:]
	}
	end()
	return lines
}

// oneRow are the first of some words that may make one piece: as bold as each other, and no line ends within.
func oneRow(words []word) []word {
	for i, w := range words {
		if w.bold != words[0].bold {
			return words[:i]
		}
		if w.ends {
			return words[:i+1]
		}
	}
	return words
}

// fitting is how many words of a row that begins at x stay within a width, all where that is 0. What is measured is the
// text that they make; where to begin is guessed by the words alone, which are measured for every text.
func fitting(row []word, x, width, size float32) int {
	if width <= 0 {
		return len(row)
	}
	bold := row[0].bold
	gap := wide(" ", size, bold)
	n := 0
	for to := x; n < len(row); n++ {
		if to += wide(row[n].text, size, bold); to > width {
			break
		}
		to += gap
	}
	fits := func(n int) bool { return x+wide(joined(row[:n]), size, bold) <= width }
	for n > 0 && !fits(n) {
		n--
	}
	for n < len(row) && fits(n+1) {
		n++
	}
	return n
}

// joined is the text that words make.
func joined(words []word) string {
	texts := make([]string, len(words))
	for i, w := range words {
		texts[i] = w.text
	}
	return strings.Join(texts, " ")
}

// CreateRenderer draws the lines.
func (t *Text) CreateRenderer() fyne.WidgetRenderer {
	r := &textRenderer{t: t}
	r.arrange()
	return r
}

type textRenderer struct {
	t        *Text
	lines    []line
	texts    []*canvas.Text
	brokenOf lettering // what the lines are of
	width    float32   // that they were broken for
	measured measured
}

// measured is how large a text is, and of what: the toolkit asks before each frame, and measuring words takes longer than telling
// that they are the same.
type measured struct {
	of         lettering
	line, word float32 // the widest
	high       float32 // a line
}

// lettering is all of a text that tells how large it is.
type lettering struct {
	lead, text string
	size       float32
	bold       bool
}

func (r *textRenderer) Destroy() {}

// arrange breaks the text into lines for the width there is; it tells whether that shows otherwise than before.
func (r *textRenderer) arrange() (changed bool) {
	th := theme.Of(r.t)
	of, width := r.t.lettering(), float32(0)
	if r.t.Wrap {
		width = r.t.Size().Width
	}
	if of != r.brokenOf || width != r.width {
		r.lines, r.brokenOf, r.width = broken(r.t.words(), width, of.size), of, width
	}
	ink := color.Color(th.Role(r.t.Role))
	n := 0
	for _, l := range r.lines {
		for _, p := range l.pieces {
			if n == len(r.texts) {
				r.texts = append(r.texts, canvas.NewText("", ink))
			}
			c, style := r.texts[n], fyne.TextStyle{Bold: p.bold}
			changed = changed || c.Text != p.text || c.TextSize != of.size || c.TextStyle != style || c.Color != ink
			c.Text, c.TextSize, c.TextStyle, c.Color = p.text, of.size, style, ink
			n++
		}
	}
	changed = changed || n < len(r.texts)
	r.texts = r.texts[:n]
	r.place()
	return changed
}

// lettering is that of the text as it is now.
func (t *Text) lettering() lettering {
	return lettering{t.Lead, t.Text, theme.Of(t).Text(t.TextSize), t.Bold}
}

// measure is how large the text is as it is now.
func (r *textRenderer) measure() measured {
	of := r.t.lettering()
	if r.measured.of == of {
		return r.measured
	}
	m := measured{of: of, line: r.t.WidestLine(), high: fyne.MeasureText("X", of.size, fyne.TextStyle{}).Height}
	for _, w := range r.t.words() {
		m.word = max(m.word, wide(w.text, of.size, w.bold))
	}
	r.measured = m
	return m
}

func (r *textRenderer) place() {
	high := r.measure().high
	within := r.t.Size()
	y := float32(0)
	if !r.t.Wrap {
		y = max(0, (within.Height-high*float32(len(r.lines)))/2)
	}
	n := 0
	for _, l := range r.lines {
		x := float32(0)
		switch r.t.Align {
		case fyne.TextAlignCenter:
			x = max(0, (within.Width-l.width)/2)
		case fyne.TextAlignTrailing:
			x = max(0, within.Width-l.width)
		}
		for _, p := range l.pieces {
			r.texts[n].Move(fyne.NewPos(x+p.x, y))
			r.texts[n].Resize(fyne.NewSize(p.wide, high))
			n++
		}
		y += high
	}
}

func (r *textRenderer) MinSize() fyne.Size {
	m := r.measure()
	high := m.high * float32(max(1, len(r.lines)))
	if r.t.Wrap {
		return fyne.NewSize(m.word, high)
	}
	return fyne.NewSize(m.line, high)
}

func (r *textRenderer) Layout(size fyne.Size) {
	if r.t.Wrap && size.Width != r.width {
		r.arrange()
		return
	}
	r.place()
}

func (r *textRenderer) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, len(r.texts))
	for i, t := range r.texts {
		out[i] = t
	}
	return out
}

func (r *textRenderer) Refresh() {
	// What shows as before is not painted again: the window is always painted whole.
	if r.arrange() {
		canvas.Refresh(r.t)
	}
}
