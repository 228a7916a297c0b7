package app

import (
	"image/color"
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/app/version"
	"underfall/assets"
)

// aboutDialog says what Underfall is, and whose software is inside it.
type aboutDialog struct {
	window *mainWindow
	dialog *dialog.CustomDialog
	find   *findEntry
	list   *keyList
	text   *noticeText
	all    []assets.Notice
	shown  []assets.Notice // those that match what is being looked for
	chosen int             // the one whose text is shown
}

// Size of the window about Underfall, where there is room.
const (
	aboutWidth  = 1060
	aboutHeight = 720
	aboutMargin = 40
)

// openAbout opens the window about Underfall, once.
func (w *mainWindow) openAbout() {
	if w.about != nil {
		return
	}
	notices, err := assets.Notices()
	if err != nil {
		dialog.ShowError(err, w.window)
		return
	}
	a := &aboutDialog{window: w, all: notices, shown: notices}
	a.dialog = dialog.NewCustom(theme.Word("app.about-underfall"), theme.Word("app.close"), a.content(), w.window)
	a.dialog.SetOnClosed(func() {
		w.about = nil
		w.log("about false")
	})
	w.about = a
	room := w.window.Canvas().Size()
	a.dialog.Resize(fyne.NewSize(min(aboutWidth, room.Width-aboutMargin), min(aboutHeight, room.Height-aboutMargin)))
	a.dialog.Show()
	a.choose(0)
	w.window.Canvas().Focus(a.find)
	w.log("about true")
}

func (a *aboutDialog) content() fyne.CanvasObject {
	line := func(s string) *widget.Label {
		l := widget.NewLabel(s)
		l.Wrapping = fyne.TextWrapWord
		return l
	}
	is := line(version.Of(theme.Book()))
	is.Selectable = true
	heading := container.NewVBox(is,
		line(theme.Word("app.underfall-informs-it-does-not-certify")),
		line(theme.Word("app.mit-licence-copyright-2026-the-underfall")))
	for _, m := range a.window.view.DrawnBy() {
		heading.Add(line(theme.Book().Say(m)))
	}
	a.find = &findEntry{keys: a.key}
	a.find.ExtendBaseWidget(a.find)
	a.find.PlaceHolder = theme.Word("app.find-by-name")
	a.find.OnChanged = a.search
	a.list = &keyList{keys: a.key}
	a.list.Length = func() int { return len(a.shown) }
	a.list.CreateItem = func() fyne.CanvasObject {
		l := widget.NewLabel("")
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	a.list.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) { o.(*widget.Label).SetText(a.shown[i].Of) }
	a.list.OnSelected = a.show
	a.list.ExtendBaseWidget(a.list)
	a.text = newNoticeText(a.window.theme, a.key)
	text := container.New(layout.NewCustomPaddedLayout(0, 0, 2*fynetheme.Padding(), 0), a.text)
	split := container.NewHSplit(container.NewBorder(a.find, nil, nil, nil, a.list), text)
	split.SetOffset(0.34)
	return container.NewBorder(heading, nil, nil, nil, split)
}

// key does what a key asks for, and tells whether it asks for anything.
func (a *aboutDialog) key(e *fyne.KeyEvent) bool {
	switch e.Name {
	case fyne.KeyEscape:
		a.dialog.Hide()
	case fyne.KeyDown:
		a.choose(a.chosen + 1)
	case fyne.KeyUp:
		a.choose(a.chosen - 1)
	case fyne.KeyPageDown:
		a.text.page(1)
	case fyne.KeyPageUp:
		a.text.page(-1)
	default:
		return false
	}
	return true
}

// search lists the notices whose name or version holds what was typed.
func (a *aboutDialog) search(typed string) {
	a.shown = nil
	for _, n := range a.all {
		if strings.Contains(strings.ToLower(n.Of+" "+n.Version), strings.ToLower(strings.TrimSpace(typed))) {
			a.shown = append(a.shown, n)
		}
	}
	a.list.UnselectAll()
	a.list.Refresh()
	a.text.set(nil)
	a.choose(0)
}

// choose selects one of the list, as far as it goes.
func (a *aboutDialog) choose(i int) {
	if len(a.shown) == 0 {
		return
	}
	i = min(max(i, 0), len(a.shown)-1)
	a.list.Highlight(i)
	a.list.Select(i)
}

// show brings the texts of one of the list.
func (a *aboutDialog) show(i widget.ListItemID) {
	a.chosen = i
	n := a.shown[i]
	lines := []noticeLine{{strings.TrimSpace(n.Of + " " + n.Version), true}}
	for _, t := range n.Texts {
		lines = append(lines, noticeLine{}, noticeLine{t.Source, true}, noticeLine{})
		for l := range strings.SplitSeq(t.Text, "\n") {
			lines = append(lines, noticeLine{l, false})
		}
	}
	a.text.set(lines)
}

// findEntry is a field whose keys are read by its window first.
type findEntry struct {
	widget.Entry
	keys func(*fyne.KeyEvent) bool
}

// TypedKey asks the window first.
func (e *findEntry) TypedKey(k *fyne.KeyEvent) {
	if !e.keys(k) {
		e.Entry.TypedKey(k)
	}
}

// keyList is a list whose keys are read by its window first.
type keyList struct {
	widget.List
	keys func(*fyne.KeyEvent) bool
}

// TypedKey asks the window first.
func (l *keyList) TypedKey(k *fyne.KeyEvent) {
	if !l.keys(k) {
		l.List.TypedKey(k)
	}
}

// noticeLine is a line of a notice; headings say where the text comes from.
type noticeLine struct {
	text    string
	heading bool
}

// noticeText shows long texts line by line: only lines in sight are laid out.
type noticeText struct {
	keyList
	theme   *theme.Theme
	lines   []noticeLine
	columns int
	wrapped []noticeLine // lines, none wider than columns
}

const noticeTextSize = 12

func newNoticeText(a *theme.Theme, keys func(*fyne.KeyEvent) bool) *noticeText {
	t := &noticeText{theme: a}
	t.keys = keys
	t.HideSeparators = true
	t.Length = func() int { return len(t.wrapped) }
	t.CreateItem = func() fyne.CanvasObject {
		c := canvas.NewText("", color.Black)
		c.TextSize = noticeTextSize
		c.TextStyle.Monospace = true
		return c
	}
	t.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		c := o.(*canvas.Text)
		c.Text, c.Color = t.wrapped[i].text, t.theme.Color(fynetheme.ColorNameForeground, 0)
		if t.wrapped[i].heading {
			c.Color = t.theme.Color(fynetheme.ColorNamePrimary, 0)
		}
		c.Refresh()
	}
	t.OnSelected = func(i widget.ListItemID) { t.Unselect(i) }
	t.ExtendBaseWidget(t)
	return t
}

// FocusGained marks no line: they are there to be read.
func (t *noticeText) FocusGained() {}

// set shows other lines, from the first.
func (t *noticeText) set(lines []noticeLine) {
	t.lines = lines
	t.wrap()
	t.ScrollToTop()
}

// Resize wraps the lines to the width there is.
func (t *noticeText) Resize(s fyne.Size) {
	t.List.Resize(s)
	one := fyne.MeasureText("0", noticeTextSize, fyne.TextStyle{Monospace: true}).Width
	if n := int((s.Width - 2*fynetheme.Padding() - fynetheme.ScrollBarSize()) / one); n != t.columns {
		t.columns = n
		t.wrap()
	}
}

func (t *noticeText) wrap() {
	t.wrapped = nil
	for _, l := range t.lines {
		for _, s := range wrapLine(l.text, t.columns) {
			t.wrapped = append(t.wrapped, noticeLine{s, l.heading})
		}
	}
	t.Refresh()
}

// page scrolls by pages.
func (t *noticeText) page(pages float32) {
	t.ScrollToOffset(max(0, t.GetScrollOffset()+pages*0.9*t.Size().Height))
}

// wrapLine breaks a line into pieces of so many characters at most, between
// words where it can; what follows keeps the line's indentation.
func wrapLine(s string, columns int) []string {
	const least = 20 // narrower than that nobody reads
	columns = max(columns, least)
	s = strings.ReplaceAll(s, "\t", "    ")
	indent := s[:min(len(s)-len(strings.TrimLeft(s, " ")), columns/2)]
	var out []string
	for utf8.RuneCountInString(s) > columns {
		runes := []rune(s)
		cut := columns
		for k := columns; k > len(indent); k-- {
			if runes[k] == ' ' {
				cut = k
				break
			}
		}
		out = append(out, strings.TrimRight(string(runes[:cut]), " "))
		s = indent + strings.TrimLeft(string(runes[cut:]), " ")
	}
	return append(out, s)
}
