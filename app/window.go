// Package app is Underfall's window: inputs, 3D, section and plan, levels and
// findings of one job.
package app

import (
	"errors"
	"fmt"
	"image/color"
	"io"
	"os"
	"path/filepath"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	fyneapp "fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/go-gl/glfw/v3.4/glfw"
	"underfall/app/desk"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/store"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/buildup"
	"underfall/geometry/chance"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
	"underfall/viewer"
)

// Options for the window.
type Options struct {
	File string    // a job to open; empty for the one to begin with
	Log  io.Writer // gets a line for every change; nil for none
	Dark bool
	// Size of the window; zero for the usual one.
	Width, Height float32
	// Do runs functions on the window's goroutine; nil for Fyne's own.
	Do func(func())
	// ConfigFolder keeps unsaved work and reports of faults. For Run, empty is the
	// user's own.
	ConfigFolder string
	// Probe, nil for none, is called first in every guarded piece of work with
	// its part; a test makes a part fail by panicking in it.
	Probe func(part message.ID)
}

// Run opens the window and returns when it is closed.
func Run(o Options) error {
	// Fyne panics without a display; asking first gives a sentence instead.
	if err := glfw.Init(); err != nil {
		return message.Wrap(err, "cli.no-display")
	}
	o.ConfigFolder = ConfigFolder(o.ConfigFolder)
	settled, err := settleFyne()
	if err != nil {
		return err
	}
	defer settled()
	w, err := newWindow(fyneapp.NewWithID("org.underfall.app"), o)
	if err != nil {
		return err
	}
	defer w.end()
	if !w.guard.Do(partWindow, nil, w.window.ShowAndRun) {
		return errors.New(w.faults.said())
	}
	return nil
}

// mainWindow ties the views to the desk.
type mainWindow struct {
	app      fyne.App
	window   fyne.Window
	options  Options
	theme    *appTheme
	desk     *desk.Desk
	guard    *guard.Guard
	faults   *faults
	demos    []assets.Demo
	parts    part.Shelf // what there is to choose from
	shared   *sharedView
	settings viewSettings
	inputs   *inputs
	view     *view3D
	section  *drawingView
	plan     *drawingView
	findings *findingsPanel
	levels   *levelsPanel
	jobPanel *jobPanel
	checks   *checksPanel
	chances  chances
	long     *drawingView
	bed      *drawingView
	left     *container.Scroll
	// viewHolder holds the 3D picture while the showroom does not.
	viewHolder *fyne.Container
	showroom   *showroom
	keys       *windowKeys
	// shelf has the languages there are.
	shelf       *words.Shelf
	runsPainter *paint.Painter
	about       *aboutDialog      // nil while closed
	main        fyne.CanvasObject // all of the window but the showroom
	runs        *runsPanel
	water       *waterPanel
	status      *widget.Label
	message     *widget.Label
	undo        *toolButton
	redo        *toolButton
	measure     *toolButton
	stage       *widget.Slider
	stageAt     *widget.Label
	cutCheck    *widget.Check
	cutMode     *widget.Select
	looks       *widget.Select
	drawings    *container.AppTabs
	sides       *container.AppTabs
	change      desk.Change
	lastSave    *desk.Change // how the desk stood then; nil before the first
	panelsAt    time.Time
	panelsDue   bool
	panelsWait  *time.Timer
	replaced    bool // the next result is of another job: place cameras anew
	ending      sync.Once

	folder     string        // for unsaved work; empty when there is none
	keepNotice *widget.Label // as long as unsaved work is not kept
	keepSoon   chan struct{} // asks for unsaved work to be kept
	keepEnded  chan struct{} // closed when unsaved work is kept no more
	question   *dialog.CustomDialog
	answers    []answer    // of the question, as long as there is one
	saving     *saveDialog // while it is open
	leftBehind *leftBehind // what was found at the start
}

func newWindow(a fyne.App, o Options) (*mainWindow, error) {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		return nil, err
	}
	packs, err := assets.Rules()
	if err != nil {
		return nil, err
	}
	demos, err := assets.Demos()
	if err != nil {
		return nil, err
	}
	known, err := assets.Parts()
	if err != nil {
		return nil, err
	}
	// Those that come with Underfall are there whatever becomes of the user's own.
	own, ownParts := store.OwnParts(o.ConfigFolder, known)
	w := &mainWindow{parts: known.With(own), keepSoon: make(chan struct{}, 1), app: a, options: o, demos: demos, replaced: true, shelf: shelf}
	w.theme = newAppTheme(o.Dark || a.Preferences().Bool("dark"), w.bookOf(a.Preferences().StringWithFallback(languageKey, words.Wanted(os.Getenv))))
	unguarded := o.Do
	if unguarded == nil {
		unguarded = fyne.Do
	}
	w.keys = newWindowKeys()
	w.guard = guard.New(func(f guard.Fault) { w.faults.report(f) }, o.Probe)
	do := func(f func()) { unguarded(w.guard.Wrap(partChange, f)) }
	w.shared = newSharedView(do, w.guard)
	a.Settings().SetTheme(w.theme)
	w.folder = o.ConfigFolder
	w.window = a.NewWindow("Underfall")
	if w.desk, err = desk.New(w.first(), packs, do, w.guard); err != nil {
		return nil, err
	}
	if w.folder != "" {
		w.desk.KeepIn(filepath.Join(w.folder, keptFolder), time.Now)
	}
	w.faults = newFaults(w.desk, w.folder, func(sentence string, again bool) {
		unguarded(func() {
			defer func() { _ = recover() }() // a fault here would be told without end
			w.tellFault(sentence, again)
		})
	})
	font := theme.DefaultTextFont().Content()
	painters := make([]*paint.Painter, 6)
	for i := range painters {
		if painters[i], err = paint.NewPainter(font); err != nil {
			return nil, err
		}
	}
	w.view = newView3D(w.shared, w.theme, painters[4])
	w.view.edit = w.editPart
	w.section = newDrawingView(drawSection, w.desk, w.keys, w.shared, w.theme, painters[0])
	w.plan = newDrawingView(drawPlan, w.desk, w.keys, w.shared, w.theme, painters[1])
	w.long = newDrawingView(drawLong, w.desk, w.keys, w.shared, w.theme, painters[2])
	w.bed = newDrawingView(drawBed, w.desk, w.keys, w.shared, w.theme, painters[5])
	w.runsPainter = painters[3]
	w.chances = chances{do: do, guard: w.guard, show: func(c chance.Chances) { w.findings.showRisks(c); w.levels.showSampled(c.Fits) }}
	w.status, w.message, w.keepNotice = widget.NewLabel(""), widget.NewLabel(""), paragraph("")
	w.keepNotice.Importance = widget.DangerImportance
	w.keepNotice.Hide()
	w.status.Truncation, w.message.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	w.view.readout = w.status.SetText
	choose := func(part string) { w.shared.change(func(s *sharedView) { s.chosen = part }); w.tellChosen() }
	w.view.choose = choose
	for _, v := range w.drawn() {
		v.readout, v.choose = w.status.SetText, choose
	}
	started := time.Now()
	w.shared.listener = append(w.shared.listener, func() {
		w.log("cut %v %s %.1f", w.shared.cutOn, w.shared.mode, w.shared.offsetMM[w.shared.active()[0]])
	})
	w.view.started = func(err error) {
		if err != nil {
			w.log("3d off: %v", err)
			return
		}
		w.log("first picture after %d ms", time.Since(started).Milliseconds())
	}
	var grip fyne.Position
	w.view.gripMoved = func(at fyne.Position) {
		if at != grip {
			grip = at
			w.log("grip %.0f %.0f", at.X, at.Y)
		}
	}
	w.compose()
	w.shared.listener = append(w.shared.listener, w.showState)
	w.window.SetContent(w.main)
	w.shortcuts()
	w.desk.Subscribe(w.follow)
	size := fyne.NewSize(1280, 780)
	if o.Width > 0 && o.Height > 0 {
		size = fyne.NewSize(o.Width, o.Height)
	}
	w.window.Resize(size)
	if broken := shelf.Fault(); !broken.IsZero() {
		w.log("%s", broken)
		w.status.SetText(say(broken, unit.Metric))
	}
	if ownParts != nil {
		w.log("own parts: %v", ownParts)
		w.status.SetText(say(message.OfError(ownParts), unit.Metric))
	}
	w.window.SetMaster()
	w.window.SetCloseIntercept(w.close)
	if o.File != "" {
		w.openFile(o.File)
	}
	w.startKeeping()
	return w, nil
}

func (w *mainWindow) log(format string, args ...any) {
	if w.options.Log != nil {
		fmt.Fprintf(w.options.Log, format+"\n", args...)
	}
}

// compose makes the window's panels and puts them together, in the language that is
// spoken. The views, which have no words of their own, stay.
func (w *mainWindow) compose() {
	w.jobPanel = newJobPanel(w.desk, w.parts, w.keys)
	w.inputs = newInputs(w.desk, w.parts, w.keys, w.jobPanel.object())
	w.findings = newFindingsPanel(w.theme, w.goToFinding)
	w.levels = newLevelsPanel(w.goToLevel)
	w.checks = newChecksPanel(w.goToCheck)
	w.runs = newRunsPanel(w.desk, w.theme, w.runsPainter, w.shared.do, w.guard)
	w.water = newWaterPanel(func(on bool) {
		w.shared.change(func(s *sharedView) { s.water = on })
		w.log("water %v", on)
	})
	w.main = w.layout()
	w.showState()
}

// drawn are the views that show a drawing.
func (w *mainWindow) drawn() []*drawingView {
	return []*drawingView{w.section, w.plan, w.long, w.bed}
}

// inputsWidth is the least width of the inputs.
const inputsWidth = 344

// layout builds the window's content.
func (w *mainWindow) layout() fyne.CanvasObject {
	w.left = container.NewVScroll(container.NewPadded(w.inputs.accordion))
	w.stage = widget.NewSlider(0, float64(buildup.Stages-1))
	w.stage.Step = 1
	w.stageAt = widget.NewLabel("")
	w.stage.OnChanged = func(v float64) {
		w.view.arrive(buildup.Stage(v))
		w.log("stage %s", w.shared.stage)
	}
	centre := widget.NewButton(word("app.centre-cut"), w.guard.Wrap(partWindow, func() { w.centreCut(); w.release() }))
	centre.Importance = widget.LowImportance
	stageBar := container.NewBorder(nil, nil, widget.NewLabel(word("app.build-stage")), container.NewHBox(container.NewGridWrap(fyne.NewSize(130, 34), w.stageAt), centre), w.stage)
	w.drawings = container.NewAppTabs(container.NewTabItem(word("app.section"), w.section), container.NewTabItem(word("app.plan"), w.plan), container.NewTabItem(word("app.along-the-waste"), w.long), container.NewTabItem(word("app.bed"), w.bed))
	w.drawings.OnSelected = func(*container.TabItem) {
		for _, v := range w.drawn() {
			v.redraw()
		}
	}
	w.viewHolder = container.NewStack(w.view)
	middle := container.NewVSplit(container.NewBorder(nil, stageBar, nil, nil, w.viewHolder), w.drawings)
	middle.SetOffset(0.5)
	w.sides = container.NewAppTabs(container.NewTabItem(word("app.findings"), w.findings.object()),
		container.NewTabItem(word("app.levels"), w.levels.object()), container.NewTabItem(word("app.runs"), w.runs.object()),
		container.NewTabItem(word("app.water"), w.water.object()), container.NewTabItem(word("app.checks"), w.checks.object()))
	right := container.NewHSplit(middle, w.sides)
	right.SetOffset(0.665)
	// Fields must not be cut off in a narrow window.
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(inputsWidth, 10))
	all := container.NewHSplit(container.NewStack(room, w.left), right)
	all.SetOffset(0.27)
	bottom := container.NewVBox(widget.NewSeparator(), w.keepNotice, container.NewGridWithColumns(2, w.message, w.status))
	return container.NewBorder(w.toolbar(), bottom, nil, nil, all)
}

func (w *mainWindow) toolbar() fyne.CanvasObject {
	button := func(label message.ID, icon fyne.Resource, hint message.ID, f func()) *toolButton {
		return newToolButton(word(label), icon, func() string { return word(hint) }, w.status.SetText, w.guard.Wrap(partWindow, f))
	}
	// naming is a hint that names the edit it is about.
	naming := func(hint, none message.ID, edit func(desk.Change) message.Message) func() string {
		return func() string {
			if name := edit(w.change); !name.IsZero() {
				return word(hint, message.In("edit", name))
			}
			return word(none)
		}
	}
	w.undo = button("tool.undo", theme.ContentUndoIcon(), "", w.undoLast)
	w.undo.hint = naming("tool.undo.hint", "tool.undo.none", func(c desk.Change) message.Message { return c.Undo })
	w.redo = button("tool.redo", theme.ContentRedoIcon(), "", w.redoLast)
	w.redo.hint = naming("tool.redo.hint", "tool.redo.none", func(c desk.Change) message.Message { return c.Redo })
	starts := []string{word("app.new-job")}
	for _, d := range w.demos {
		starts = append(starts, d.Job.Name)
	}
	start := newSelect(starts, nil)
	start.PlaceHolder = word("app.new-demos")
	start.OnChanged = func(string) {
		switch i := start.SelectedIndex(); {
		case i < 0:
			return
		case i == 0:
			w.begin(newJob(w.parts))
		default:
			w.begin(w.demos[i-1].Job)
		}
		start.ClearSelected()
		w.release()
	}
	w.cutCheck = widget.NewCheck(word("app.cut"), func(on bool) {
		w.shared.change(func(s *sharedView) { s.cutOn = on })
		// What was cut away hides what the whole should be looked at from.
		if on {
			w.view.view(viewer.ViewCut)
		} else {
			w.view.view(viewer.ViewCorner)
		}
		w.release()
	})
	var modes []string
	for _, m := range cutModes() {
		modes = append(modes, word(m.name()))
	}
	// Choosing the mode that is chosen brings its planes back to their places.
	w.cutMode = newSelect(modes, func(string) {
		w.shared.setMode(cutModes()[w.cutMode.SelectedIndex()])
		w.section.fit()
		w.view.view(viewer.ViewCut)
		w.release()
	})
	w.looks = newSelect([]string{word("app.finished"), word("app.technical"), word("app.see-through"), word("app.heights")}, func(string) {
		w.shared.change(func(s *sharedView) { s.look = viewer.Look(w.looks.SelectedIndex()) })
		w.log("look %d", w.shared.look)
		w.release()
	})
	w.measure = button("tool.measure", theme.SearchIcon(), "tool.measure.hint", func() { w.setMeasuring(!w.shared.measuring) })
	fitted := func(n float32, o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(n, 36), o)
	}
	// A window too narrow for all of it scrolls it.
	return container.NewVBox(container.NewHScroll(container.NewHBox(
		button("tool.open", theme.FolderOpenIcon(), "tool.open.hint", w.open), button("tool.save", theme.DocumentSaveIcon(), "tool.save.hint", w.save), fitted(130, start),
		widget.NewSeparator(), w.undo, w.redo, widget.NewSeparator(),
		fitted(112, w.viewChoice()), fitted(116, w.looks), w.viewOptions(button("", theme.SettingsIcon(), "tool.options.hint", nil)), widget.NewSeparator(),
		w.cutCheck, fitted(158, w.cutMode), w.measure, widget.NewSeparator(),
		button("", theme.MediaPhotoIcon(), "tool.picture.hint", w.takePicture), button("tool.showroom", theme.ViewFullScreenIcon(), "tool.showroom.hint", w.openShowroom),
		button("", theme.ColorPaletteIcon(), "tool.theme.hint", w.toggleTheme), button("", theme.InfoIcon(), "tool.about.hint", w.openAbout))), widget.NewSeparator())
}

// release takes the focus off the tools, so that plain keys reach the window.
func (w *mainWindow) release() {
	// Not at once: a list of choices gives the focus back when it closes. From
	// another goroutine, as the queue may be this one's own.
	w.guard.Go(partChange, func() { w.shared.do(func() { w.window.Canvas().Unfocus() }) })
}

// follow brings every view to the desk's state.
func (w *mainWindow) follow(c desk.Change) {
	select {
	case <-w.shared.closed: // nothing is begun again
		return
	default:
	}
	w.change = c
	r := c.Result
	fit := w.replaced && len(r.Problems) == 0
	if len(r.Problems) == 0 {
		w.replaced = false
		w.shared.keepInRoom(r)
		w.view.setResult(r, fit)
		for _, v := range w.drawn() {
			v.setResult(r, fit)
		}
		w.followMark(r)
	}
	w.panelsSoon()
	if c.Edits > 0 && !c.Preview {
		select {
		case w.keepSoon <- struct{}{}:
		default:
		}
	}
	if w.showroom != nil {
		w.showroom.build()
	}
	enable := func(b *toolButton, on bool) {
		if on {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	enable(w.undo, !c.Undo.IsZero())
	enable(w.redo, !c.Redo.IsZero())
	w.window.SetTitle(title(c))
	switch {
	case c.Stale:
		w.say(w.faults.said(), true)
	case w.stillSaved(c):
		w.saySaved(c.File)
	case len(c.Problems) > 0:
		w.say(say(message.Of("desk.not-changed", message.In("problem", c.Problems[0].Message())), w.desk.Job().Units), true)
	case len(r.Problems) > 0:
		w.say(capital(say(r.Problems[0].Message(), r.Settled.Units)), true)
	default:
		w.say(w.headline(c), false)
	}
	hint := word("app.shown-while-you-type-leaving-the")
	if c.Preview {
		w.status.SetText(hint)
	} else if w.status.Text == hint || fit {
		w.status.SetText("")
	}
	stops := 0
	for _, f := range r.Findings {
		if f.Rule.Severity == rule.Stop {
			stops++
		}
	}
	w.log("job %q base top %.2f tile %.2f stops %d problems %d unsaved %v undo %v", r.Settled.Name, r.Heights.BaseTopMM, r.Heights.TileMM, stops, len(c.Problems), c.Unsaved, !c.Undo.IsZero())
}

// panelsEvery is how often the panels beside the pictures follow a drag: faster
// than that nobody reads them, and the pictures need the time.
const panelsEvery = 150 * time.Millisecond

// panelsSoon brings the panels to the latest state: at once, or when they have
// just been, a little later.
func (w *mainWindow) panelsSoon() {
	if w.panelsDue {
		return
	}
	wait := panelsEvery - time.Since(w.panelsAt)
	if wait <= 0 {
		w.showPanels()
		return
	}
	w.panelsDue = true
	w.panelsWait = w.guard.After(wait, partChange, func() { w.shared.do(w.showPanels) })
}

func (w *mainWindow) showPanels() {
	w.panelsAt, w.panelsDue = time.Now(), false
	r := w.change.Result
	if len(r.Problems) == 0 {
		w.findings.show(r)
		w.levels.show(r)
		w.water.show(r)
		w.checks.show(r)
		w.chances.follow(r)
	}
	j := w.desk.Job()
	w.inputs.show(j)
	w.jobPanel.show(j, r.Pack, w.change.Undo)
	w.runs.follow(w.change)
}

// headline is the one line everybody wants: how high, and the step.
func (w *mainWindow) headline(c desk.Change) string {
	r := c.Result
	u := r.Settled.Units
	s := say(message.Of("status.tile-at-drain", message.At("level", r.Heights.TileMM)), u)
	worst := 0.0
	for _, e := range r.Heights.Edges(&r.Settled, &r.Layout) {
		if v := e.WorstStepMM(); v*v > worst*worst {
			worst = v
		}
	}
	s += " · " + say(message.Of("status.edge-step", message.MM("step", worst)), u)
	if n := len(r.Heights.Run.Pieces); n > 0 {
		s += " · " + say(message.Of("status.pipe", message.Slope("fall", r.Heights.Gradient)), u)
	}
	return s
}

func (w *mainWindow) say(s string, bad bool) {
	w.message.Importance = widget.MediumImportance
	if bad {
		w.message.Importance = widget.DangerImportance
	}
	w.message.SetText(s)
}

func (w *mainWindow) setMeasuring(on bool) {
	w.status.SetText("")
	if on {
		w.status.SetText(word("app.click-two-points-of-the-drawing"))
	}
	w.shared.change(func(s *sharedView) { s.measuring = on })
	w.log("measure %v", on)
}

// showMeasuring brings the views and the tool to measuring or not.
func (w *mainWindow) showMeasuring(on bool) {
	for _, v := range w.drawn() {
		v.setMeasuring(on)
	}
	w.view.setMeasuring(on)
	w.measure.Importance = widget.LowImportance
	if on {
		w.measure.Importance = widget.HighImportance
	}
	w.measure.Refresh()
}

func (w *mainWindow) toggleTheme() {
	w.theme.dark = !w.theme.dark
	w.app.Preferences().SetBool("dark", w.theme.dark)
	w.app.Settings().SetTheme(w.theme)
	w.findings.show(w.change.Result)
	w.shared.change(func(*sharedView) {})
	w.log("dark %v", w.theme.dark)
}
