package app

import (
	"context"
	"strings"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/start"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/question"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// Preferences that hold the country and the units that were chosen, for new jobs, and the answers of a
// sheet that no job was made of yet.
const (
	regionKey = "region"
	unitsKey  = "units"
	sheetKey  = "sheet"
)

// partStart is how a fault in working out what the start page shows is told.
const partStart message.ID = "fault.start-page"

// startPages are what may stand in the place of the desk: the start page, and the sheet that a new job
// is made of.
type startPages struct {
	window *mainWindow
	keys   *control.Keys
	front  *start.Front // nil while it is not shown
	sheet  *start.Sheet // likewise
	// begun is the sheet that was left last before a job was made of it; of no region while there is
	// none.
	begun question.Sheet
	jobs  []start.Job   // nil until the list is read
	all   chan struct{} // asks for the rest of the rows to be worked out
	// heads are how the examples stand, by their files; nil until that is worked out.
	heads map[string]message.Message
	found []*store.Found // unsaved work of earlier windows, offered on the page
	// worked tells that the desk has been shown: what lies on it is somebody's job.
	worked bool
	// listing ends the working out of rows, answering that of the first answer.
	listing, answering context.CancelFunc

	mu        sync.Mutex
	practices map[string]question.Practice
}

func newStartPages(w *mainWindow) *startPages {
	s := &startPages{window: w, worked: !w.options.beginsOnPage(), keys: control.NewKeys(), practices: map[string]question.Practice{},
		listing: func() {}, answering: func() {}}
	s.keys.Hints = w.keys.Hints
	s.keys.Plain = func(e *fyne.KeyEvent) { w.plainKey(e) }
	undo, redo := func() { s.onSheet((*start.Sheet).Undo) }, func() { s.onSheet((*start.Sheet).Redo) }
	for _, name := range []string{(&fyne.ShortcutUndo{}).ShortcutName(), ctrlName(fyne.KeyZ)} {
		s.keys.Shortcuts[name] = w.guard.Wrap(partWindow, undo)
	}
	for _, name := range []string{(&fyne.ShortcutRedo{}).ShortcutName(), ctrlName(fyne.KeyY)} {
		s.keys.Shortcuts[name] = w.guard.Wrap(partWindow, redo)
	}
	s.keys.Shortcuts[ctrlName(fyne.KeyO)] = w.guard.Wrap(partWindow, w.open)
	s.keys.Shortcuts[ctrlName(fyne.KeyQ)] = w.guard.Wrap(partWindow, w.close)
	s.keys.Shortcuts[ctrlName(fyne.KeyN)] = w.guard.Wrap(partWindow, s.newJob)
	s.keys.Shortcuts[ctrlName(fyne.KeyT)] = w.guard.Wrap(partWindow, w.toggleTheme)
	s.keys.Shortcuts[ctrlName(fyne.KeyF)] = w.guard.Wrap(partWindow, func() {
		if s.front != nil {
			s.front.Find()
		}
	})
	return s
}

// shown tells whether a page stands in the place of the desk.
func (s *startPages) shown() bool { return s.front != nil || s.sheet != nil }

func (s *startPages) onSheet(f func(*start.Sheet)) {
	if s.sheet != nil {
		f(s.sheet)
	}
}

// typed does what a shortcut stands for on a page; it tells whether one is shown.
func (s *startPages) typed(shortcut fyne.Shortcut) bool {
	if !s.shown() {
		return false
	}
	s.keys.Typed(shortcut)
	return true
}

// key does what a key stands for on a page; it tells whether one is shown.
func (s *startPages) key(k fyne.KeyName) bool {
	switch {
	case !s.shown():
		return false
	case k == fyne.KeyEscape && s.sheet != nil:
		if !s.sheet.Escape() {
			s.open()
		}
	case k == fyne.KeyEscape && s.front != nil && s.worked:
		s.leave()
	case k == fyne.KeyN && s.front != nil:
		s.front.Focus()
	case (k == fyne.KeyReturn || k == fyne.KeyEnter) && s.front != nil:
		s.front.Begin()
	case k == fyne.KeyF && s.front != nil:
		s.front.Find()
	case (k == fyne.KeyDown || k == fyne.KeyUp) && s.front != nil:
		s.front.Rows()
	case k == fyne.KeyF1:
		s.window.openAbout()
	}
	return true
}

// practice is that of a region, worked out once.
func (s *startPages) practice(region string) question.Practice {
	s.mu.Lock()
	defer s.mu.Unlock()
	p, ok := s.practices[region]
	if !ok {
		p = question.PracticeIn(region, s.window.parts)
		s.practices[region] = p
	}
	return p
}

// forgetPractices has practices worked out anew: with other parts.
func (s *startPages) forgetPractices() {
	s.mu.Lock()
	defer s.mu.Unlock()
	clear(s.practices)
}

// region is the country that new jobs are for: the one chosen, else that of the language.
func (s *startPages) region() string {
	region := "UK"
	if american() {
		region = "US"
	}
	chosen := s.window.prefers.StringWithFallback(regionKey, region)
	if _, known := s.window.packs[chosen]; !known || chosen == rule.CommonRegion {
		return region
	}
	return chosen
}

// blank is a sheet with nothing answered, in the country and the units that were chosen.
func (s *startPages) blank() question.Sheet {
	sheet := s.practice(s.region()).Begin()
	if u := unit.System(s.window.prefers.String(unitsKey)); u == unit.Metric || u == unit.Imperial {
		sheet.Units = u
	}
	return sheet
}

// keep keeps the country and the units for new jobs.
func (s *startPages) keep(sheet question.Sheet) {
	s.window.prefers.SetString(regionKey, sheet.Region)
	s.window.prefers.SetString(unitsKey, string(sheet.Units))
}

// keepAnswers keeps the answers of a sheet until a job is made of them, also when the window is closed.
func (s *startPages) keepAnswers(sheet question.Sheet) {
	s.window.prefers.SetString(sheetKey, sheet.Text())
}

// answered are the answers that were kept; of no region where there are none.
func (s *startPages) answered() question.Sheet {
	sheet, ok := question.ReadSheet(s.window.prefers.String(sheetKey))
	if _, known := s.window.packs[sheet.Region]; !ok || !known {
		return question.Sheet{}
	}
	return sheet
}

// forget lets go of the answers that were kept.
func (s *startPages) forget() {
	s.begun = question.Sheet{}
	s.window.prefers.RemoveValue(sheetKey)
}

// open shows the start page.
func (s *startPages) open() {
	w := s.window
	if s.sheet != nil {
		s.begun = s.sheet.Sheet()
	}
	s.answering()
	s.sheet = nil
	if s.begun.Region == "" {
		s.begun = s.answered()
	}
	sheet := s.begun
	if sheet.Region == "" {
		sheet = s.blank()
	}
	o := start.FrontOptions{Practice: s.practice(sheet.Region), Sheet: sheet, Jobs: s.jobs, Latest: latestRows, Where: s.where(sheet),
		Keys: s.keys, Examples: s.examples(),
		Begin: s.begin, Open: s.openJob, Remove: s.remove, Seek: s.seek, Copy: s.copyOf, Folder: s.openFolder, All: s.listAll,
		OpenFile: w.open, Parts: w.openParts, Light: w.toggleTheme,
		ChangeWhere: s.changeWhere, LookAt: s.lookAt, BringBack: s.bringBack, SetAside: s.setAside,
		Example: func(i int) { w.begin(s.exampleJob(w.demos[i])) }}
	if w.folder == "" {
		o.Unkept = theme.Word("app.unsaved-work-is-not-kept-this")
	}
	if s.worked {
		id := message.ID("start.on-desk")
		if w.desk.Unsaved() {
			id = "start.on-desk-unsaved"
		}
		o.OnDesk, o.Back = theme.Word(id, message.Name("job", store.Plain(w.desk.Job().Name))), s.leave
	}
	for _, f := range s.found {
		o.Kept = append(o.Kept, start.Kept{Name: store.Plain(f.Name), About: describe(f)})
	}
	s.front = start.NewFront(o)
	s.show(s.front.Object(), s.front.Focus)
	w.log("page start")
	s.list()
}

// show puts a page in the place of the desk.
func (s *startPages) show(page fyne.CanvasObject, focus func()) {
	w := s.window
	w.window.SetContent(page)
	w.trial.PutBackFor("trial.ended-left")
	w.window.SetTitle("Underfall")
	focus()
	s.focusDrawn(page, focus, focusTries)
}

// focusDrawn gives a page the keys, which it cannot take before it is drawn: again until it has, so many times at most.
func (s *startPages) focusDrawn(page fyne.CanvasObject, focus func(), tries int) {
	w := s.window
	w.sight.After(focusAfter, partStart, func() {
		if !s.shown() || w.window.Content() != page {
			return
		}
		if w.window.Canvas().Focused() == nil {
			focus()
		}
		switch {
		case w.window.Canvas().Focused() != nil:
			w.log("page has the keys")
		case tries > 1:
			s.focusDrawn(page, focus, tries-1)
		}
	})
}

// A page is drawn as soon as focusAfter; on a machine that is slow, within so many times that.
const (
	focusAfter = 150 * time.Millisecond
	focusTries = 40
)

// leave shows the desk again.
func (s *startPages) leave() {
	if !s.shown() {
		return
	}
	s.listing()
	s.answering()
	s.front, s.sheet, s.worked = nil, nil, true
	w := s.window
	w.window.SetContent(w.main)
	w.setTitle()
	w.release()
	w.offerLarge()
	w.log("page desk")
}

// anew makes the page anew where it stands: in another language or another light.
func (s *startPages) anew() {
	switch {
	case s.sheet != nil:
		s.openSheet(s.sheet.Sheet())
	case s.front != nil:
		s.open()
	}
}

// newJob shows the sheet of a new job with nothing answered.
func (s *startPages) newJob() { s.openSheet(s.blank()) }

// begin shows the sheet with what was answered on the start page.
func (s *startPages) begin(sheet question.Sheet) { s.openSheet(sheet) }

// openSheet shows the sheet of six questions.
func (s *startPages) openSheet(sheet question.Sheet) {
	w := s.window
	s.listing()
	s.front = nil
	s.begun = question.Sheet{}
	s.sheet = start.NewSheet(start.SheetOptions{Sheet: sheet, Regions: s.regions(), PracticeIn: s.practice, Answer: s.answer,
		Work: s.work, Back: s.open, Kept: s.keep, Answered: s.keepAnswers, Keys: s.keys})
	s.show(s.sheet.Object(), s.sheet.Focus)
	w.log("page sheet")
}

// regions are the countries with rules, as they are called.
func (s *startPages) regions() []start.Region {
	var out []start.Region
	for _, code := range regionsIn(s.window.packs) {
		out = append(out, start.Region{Code: code, Name: theme.Say(message.Of(s.window.packs[code].Name()), unit.Metric)})
	}
	return out
}

// answer works the first answer out off the window's goroutine; one asked for before it is given up.
func (s *startPages) answer(p question.Practice, sheet question.Sheet, show func(start.First, bool)) {
	w := s.window
	s.answering()
	ctx, cancel := context.WithCancel(context.Background())
	s.answering = cancel
	pack := w.packs[sheet.Region]
	began := time.Now()
	w.guard.Go(partStart, func() {
		f, ok := start.FirstAnswer(ctx, p, pack, sheet)
		if ctx.Err() != nil {
			return
		}
		w.sight.Do(func() {
			if ctx.Err() == nil {
				show(f, ok)
				w.log("first answer %v cases %d after %d ms", ok, len(f.Cases), time.Since(began).Milliseconds())
			}
		})
	})
}

// work puts the sheet's job on the desk.
func (s *startPages) work(j job.Job) {
	if j.Name == "" || j.Name == job.New().Name {
		j.Name = newName(&j, s.listed())
	}
	s.forget()
	s.window.begin(j)
}

// listed are the jobs of the list; none where it cannot be read, which the page tells.
func (s *startPages) listed() []store.Listed {
	if s.window.folder == "" {
		return nil
	}
	listed, err := store.Jobs(s.window.folder)
	if err != nil {
		s.window.log("%v", err)
	}
	return listed
}

// where is the country, the units and the language in a few words: which English it is the country says.
func (s *startPages) where(sheet question.Sheet) string {
	name := theme.Say(message.Of(s.window.packs[sheet.Region].Name()), unit.Metric)
	tags, names := languages()
	for i, tag := range tags {
		if tag == theme.Book().Language() {
			spoken, _, _ := strings.Cut(names[i], " (")
			return strings.Join([]string{name, start.UnitsName(sheet.Units), spoken}, " · ")
		}
	}
	return name
}

// changeWhere asks for the country, the units and the language.
func (s *startPages) changeWhere() {
	w := s.window
	sheet := s.blank()
	pick := func(about message.ID, options []control.Option, chosen string, f func(string)) fyne.CanvasObject {
		return container.NewBorder(nil, nil, container.NewGridWrap(fyne.NewSize(90, theme.PressHeight), widget.NewLabel(theme.Word(about))), nil,
			control.NewPick(s.keys, theme.Word(about), options, chosen, w.guardString(f)))
	}
	var regions, spoken []control.Option
	for _, r := range s.regions() {
		regions = append(regions, control.Option{ID: r.Code, Text: r.Name})
	}
	tags, names := languages()
	for i, tag := range tags {
		spoken = append(spoken, control.Option{ID: tag, Text: names[i]})
	}
	var d *dialog.CustomDialog
	set := func(next question.Sheet) {
		s.keep(next)
		s.forget()
		d.Hide()
		s.open()
	}
	all := container.NewVBox(
		pick("start.country", regions, sheet.Region, func(region string) { set(s.practice(region).Begin()) }),
		pick("start.units", start.UnitsOptions(), string(sheet.Units), func(u string) {
			next := sheet
			next.Units = unit.System(u)
			set(next)
		}),
		pick("app.language", spoken, theme.Book().Language(), func(tag string) { d.Hide(); w.speak(tag) }))
	d = dialog.NewCustom(theme.Word("start.country-and-language"), theme.Word("app.close"), all, w.window)
	d.Resize(fyne.NewSize(460, 260))
	w.showOver(d)
}

// guardString guards what is called with a text.
func (w *mainWindow) guardString(f func(string)) func(string) {
	return func(s string) { w.guard.Do(partWindow, nil, func() { f(s) }) }
}
