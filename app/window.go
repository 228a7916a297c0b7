// Package app is Underfall's window: inputs, 3D, section and plan, levels and
// findings of one job.
package app

import (
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	fyneapp "fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/go-gl/glfw/v3.4/glfw"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/guard"
	"underfall/app/lists"
	"underfall/app/paint"
	"underfall/app/rail"
	"underfall/app/runs"
	"underfall/app/sight"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/app/tray"
	"underfall/app/trial"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/viewer"
)

// Options for the window.
type Options struct {
	File string // a job to open; empty for the one to begin with
	// StartPage opens the window on the page of jobs, where no file is opened.
	StartPage bool
	Log       io.Writer // gets a line for every change; nil for none
	Dark      bool
	// Size of the window; zero for the usual one.
	Width, Height float32
	// Do runs functions on the window's goroutine; nil for Fyne's own.
	Do func(func())
	// ConfigFolder keeps unsaved work and reports of faults. For Run, empty is the
	// user's own.
	ConfigFolder string
	// Builds is how many builds are counted for what may go wrong; 0 for as many as usual.
	Builds int
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
	o.ConfigFolder = store.ConfigFolder(o.ConfigFolder)
	settled, err := settleFyne()
	if err != nil {
		return err
	}
	defer settled()
	// The toolkit need not look, at each change, whether it is on the window's goroutine: tests have it look.
	fyneapp.SetMetadata(fyne.AppMetadata{Migrations: map[string]bool{"fyneDo": true}})
	a := fyneapp.NewWithID("org.underfall.app")
	settings := settingsIn(o.ConfigFolder, filepath.Join(a.Storage().RootURI().Path(), fynePreferences))
	w, err := newWindow(theme.Quiet(a, scaleOf(settings)), o)
	if err != nil {
		return err
	}
	w.room = w.roomOnScreen
	defer w.end()
	if w.waiter != nil {
		w.guard.Go(partWindow, func() { w.waiter.run(w) })
	}
	if !w.guard.Do(partWindow, nil, w.window.ShowAndRun) {
		return errors.New(w.faults.said())
	}
	return nil
}

// mainWindow ties the views to the desk.
type mainWindow struct {
	app     fyne.App
	window  fyne.Window
	options Options
	theme   *theme.Theme
	// prefers is what is kept on this machine whatever the job.
	prefers *store.Settings
	look    string // that is kept to on this machine
	// room tells whether the screen has room for the window at a scale; nil for any.
	room   func(scale float32) bool
	guard  *guard.Guard
	faults *faults
	desk   *desk.Desk
	change desk.Change // the latest
	sight  *sight.Sight
	before *sight.State // what was looked at before a place was gone to; nil for none to go back to
	lit    string       // the part that was lit with it; empty for none
	keys   *control.Keys
	// followers work out at rest what is not there at once.
	followers []follower
	lower     *atRest[runs.Lower] // one of them
	supplies
	views
	panels
	pace   panelsPace
	waiter *waiter // nil where somebody else runs the window
	// onWindow hands functions to the window's goroutine.
	onWindow *together
	tools
	statusLines
	jobLine jobLine
	looking lookLine
	rods    *rodPane
	rail    *rail.Rail
	tag     *planTag
	ending  sync.Once

	// What the window is laid out of.
	main       fyne.CanvasObject // all of it but the showroom
	frame      *frame
	viewHolder *fyne.Container // holds the 3D picture while the showroom does not
	drawings   *panes
	sides      *sides

	// What may be over it.
	showroom   *showroom
	about      *aboutDialog  // nil while closed
	papers     *paperDialog  // nil while closed
	finished   finishedStill // the latest picture of the finished room
	popped     *widget.PopUp // the last of what stands over it for a moment
	question   *dialog.CustomDialog
	answers    []reply       // of the question, as long as there is one
	saving     *saveDialog   // while it is open
	over       dialog.Dialog // any other dialog, over those; nil while there is none
	leftBehind *leftBehind   // what was found at the start
	start      *startPages

	digitAt    time.Time        // when the last digit was typed that no field took
	now        func() time.Time // the clock that digits are told apart by
	replaced   bool             // the next result is of another job: place cameras anew
	refused    *desk.Change     // how it stood when what is said was refused; nil where nothing said is that
	beforeStep beforeStep       // what the step of the history made last was made of
	understood *understood      // what is to be told of what was typed last where its field has gone
	lastSave   *desk.Change     // how the desk stood then; nil before the first
	folder     string           // for unsaved work; empty when there is none
	keepSoon   chan struct{}    // asks for unsaved work to be kept
	keepEnded  chan struct{}    // closed when unsaved work is kept no more
}

// beginsOnPage tells whether the window opens on the page of jobs.
func (o Options) beginsOnPage() bool { return o.StartPage && o.File == "" }

// newWindow makes the window with a job on its desk.
func newWindow(a fyne.App, o Options) (*mainWindow, error) {
	s, err := loadSupplies(o.ConfigFolder)
	if err != nil {
		return nil, err
	}
	w := &mainWindow{app: a, options: o, supplies: s, keys: control.NewKeys(),
		replaced: true, folder: o.ConfigFolder, keepSoon: make(chan struct{}, 1), now: time.Now}
	w.prefers = settingsIn(o.ConfigFolder, "")
	w.theme = theme.New(false, w.bookOf(w.prefers.StringWithFallback(languageKey, words.Wanted(os.Getenv))))
	w.guard = guard.New(func(f guard.Fault) { w.faults.report(f) }, o.Probe)
	if o.Do == nil {
		w.waiter = &waiter{}
		o.Do = w.waiter.do
		w.options.Do = o.Do
	}
	w.onWindow = &together{post: o.do}
	w.sight = sight.New(func(f func()) { w.onWindow.do(w.guard.Wrap(partChange, f)) }, w.guard)
	w.settleLook()
	w.window = a.NewWindow("Underfall")
	w.window.SetPadded(false)
	if err := w.makeDesk(); err != nil {
		return nil, err
	}
	if w.views, err = newViews(w.desk, w.keys, w.sight, w.theme); err != nil {
		return nil, err
	}
	w.start = newStartPages(w)
	w.statusLines = newStatusLines(w.keys)
	w.listenToViews()
	w.logViews()
	w.lower = w.newLower()
	w.followers = w.newFollowers()
	w.compose()
	w.sight.Listen(w.showState)
	w.window.SetContent(w.main)
	w.shortcuts()
	w.desk.Subscribe(w.follow)
	w.window.Resize(o.size())
	w.tellMissing()
	w.window.SetMaster()
	w.window.SetCloseIntercept(w.close)
	if o.File != "" {
		w.openFile(o.File)
		w.start.worked = !o.StartPage || w.desk.File() != "" // else nobody asked for the job that is on the desk
	}
	w.startKeeping()
	w.handOver()
	if !w.start.worked {
		w.start.open()
	}
	return w, nil
}

// do runs a function on the window's goroutine.
func (o Options) do(f func()) {
	if o.Do != nil {
		o.Do(f)
		return
	}
	fyne.Do(f)
}

// size of the window.
func (o Options) size() fyne.Size {
	if o.Width > 0 && o.Height > 0 {
		return fyne.NewSize(o.Width, o.Height)
	}
	return fyne.NewSize(1280, 780)
}

// makeDesk makes the desk, with the first job on it, and what reports faults of the work
// on it.
func (w *mainWindow) makeDesk() (err error) {
	if w.desk, err = desk.New(w.first(), w.packs, w.sight.Do, w.guard); err != nil {
		return err
	}
	w.desk.Named(renamed)
	if w.folder != "" {
		w.desk.KeepIn(filepath.Join(w.folder, keptFolder), time.Now)
	}
	w.faults = newFaults(w.desk, w.folder, func(sentence string, again bool) {
		w.options.do(func() {
			defer func() { _ = recover() }() // a fault here would be told without end
			w.tellFault(sentence, again)
		})
	})
	return nil
}

// roomOnScreen tells whether the window at its least fits the first screen at a scale.
func (w *mainWindow) roomOnScreen(scale float32) bool {
	monitor := glfw.GetPrimaryMonitor()
	if monitor == nil || monitor.GetVideoMode() == nil {
		return true
	}
	_, _, wide, high := monitor.GetWorkarea()
	least := w.frame.MinSize(nil)
	times := w.window.Canvas().Scale() / theme.Scale(w.app) * scale
	return least.Width*times <= float32(wide) && least.Height*times <= float32(high)
}

// listenToViews has the window do what is asked for in the views.
func (w *mainWindow) listenToViews() {
	w.view.Edit, w.view.Go = w.editPart, w.goToPin
	w.view.Looked, w.view.Thing = func() { w.showHead() }, w.openThing
	w.view.ThingMoved, w.view.ThingLet = w.dragThing, w.letThing
	choose := func(part string) { w.sight.Change(func(s *sight.State) { s.Chosen = part }); w.tellChosen() }
	w.view.Readout, w.view.Choose = w.read, choose
	for _, v := range w.drawn() {
		v.Readout, v.Choose, v.Cut, v.Rod = w.read, choose, w.cutPoints, w.standRod
		v.TypeOn = func(on paint.Placed) { w.typeOn(v, on) }
		v.TypeTurn = func(at fyne.Position) { w.typeTurn(w.figureOver(v), v, at) }
		v.Key, v.Moved = w.placeKey, w.showFit
	}
}

// logViews logs the cut, the first picture and where the cut's grip is.
func (w *mainWindow) logViews() {
	w.sight.Listen(func() {
		s := &w.sight.State
		w.log("cut %v %s %.1f turned %.1f corner %v", s.CutOn, s.Cutting.Of, s.MovedMM(sight.PlaneFirst), s.Cutting.TurnedDeg, s.Corner)
	})
	began := time.Now()
	w.view.Started = func(err error) {
		if err != nil {
			w.log("3d off: %v", err)
			return
		}
		w.log("first picture after %d ms", time.Since(began).Milliseconds())
	}
	since := func() int64 { return time.Since(began).Milliseconds() }
	w.view.Pictured = func(size image.Point) { w.log("picture of %d × %d at %d ms", size.X, size.Y, since()) }
	var grip fyne.Position
	w.view.GripMoved = func(at fyne.Position) {
		if at != grip {
			grip = at
			w.log("grip %.0f %.0f", at.X, at.Y)
		}
	}
}

func (w *mainWindow) log(format string, args ...any) {
	if w.options.Log != nil {
		fmt.Fprintf(w.options.Log, format+"\n", args...)
	}
}

// panels are the parts of the window that have words of their own: made anew when another
// language is spoken.
type panels struct {
	jobPanel *jobPanel
	tray     *tray.Tray
	answer   *answer.Column
	levels   *lists.Levels
	runs     *runs.Finder
	trial    *trial.Room
	water    *lists.Water
	checks   *lists.Checks
}

// compose makes the window's panels and puts them together, in the language that is
// spoken. The views, which have no words of their own, stay.
func (w *mainWindow) compose() {
	for _, f := range w.followers {
		f.stop() // it would be shown by panels that have not been shown a result
	}
	w.jobPanel = newJobPanel(w.desk, w.parts, w.keys)
	asks := w.asks()
	asks.Try = w.tryParts
	w.tray = tray.New(asks, w.parts, w.keys, w.theme)
	w.tray.Opened = func(job.Station) { w.markStation() }
	w.tray.Lights = func(lit section.Lit) {
		if w.frame.arrangement.roomAlone {
			w.plan.ShowRoom(&lit)
		}
	}
	w.tray.Reading = func(on bool) {
		if w.plan.ReadAt = nil; on {
			w.drawings.SelectIndex(1)
			w.plan.ReadAt = w.readAt
		}
	}
	w.answer = answer.NewColumn(w.theme, w.keys, w.answerAsks())
	w.levels = lists.NewLevels(w.keys, w.sight, w.goToLevel)
	w.checks = lists.NewChecks(w.keys, w.goToCheck)
	w.rods = newRodPane(w.keys, w.sight, w.chooseLayer)
	w.runs = runs.New(w.runsAsks(), w.keys, w.theme, w.runsPainter, w.guard)
	w.trial = trial.New(w.trialAsks(), w.keys, w.theme, w.trialPainter, w.guard)
	w.water = lists.NewWater(w.keys, func(on bool) {
		w.sight.Change(func(s *sight.State) { s.Water = on })
		w.log("water %v", on)
	})
	w.main = w.layout()
	w.showState()
}

// runsAsks is what the search for runs asks of the window.
func (w *mainWindow) runsAsks() runs.Asks {
	return runs.Asks{Job: w.desk.Job, Opened: w.desk.Opened, Packs: w.desk.Regions(), Shelf: w.parts, Try: w.tryRun, OnWindow: w.sight.Do}
}

// answerColumn has the one answer, what is to be settled, and what has become of the last
// change.
func (w *mainWindow) answerColumn() fyne.CanvasObject {
	w.told = container.NewVBox(w.keepNotice, w.trialTold, w.stills, w.teller)
	return w.answer.Object(w.askLarge, w.told)
}

// answerAsks is what the answer asks of the window.
func (w *mainWindow) answerAsks() answer.Asks {
	return answer.Asks{
		Sight:       w.sight,
		ShowFinding: w.goToFinding, ShowFigure: w.goToFigure, ToField: func(key string) { w.toField(key) },
		Do: func(e edit.Edit) { w.desk.Do(e) }, Try: w.tryOffer,
		Lists: []message.ID{answer.HeightsList, "app.runs", "app.water", "app.checks"},
		List:  func(name message.ID) { w.guard.Wrap(partWindow, func() { w.sides.open(name) })() },
		FindRuns: w.guard.Wrap(partWindow, func() {
			w.sides.open("app.runs")
			w.runs.Begin()
		}),
		After: func(wait time.Duration, f func()) { w.sight.After(wait, partWindow, f) },
		Shown: w.showStations,
	}
}

// showStations tells the rail how the stations of the work stand.
func (w *mainWindow) showStations(r geometry.Result, a geometry.Answer) {
	w.rail.Tell(r.StationsOf(a), r.Settled.Units)
}

// railBar has the stations of the work; one that is pressed opens its fields, pressed again it
// closes them.
func (w *mainWindow) railBar() fyne.CanvasObject {
	w.rail = rail.New(w.keys, len(job.Stations()), w.guardStation)
	w.sides.told = func() {
		w.markStation()
		w.checks.Away(!w.sides.shows("app.checks"))
		w.levels.Away(!w.sides.shows(answer.HeightsList))
		w.lower.follow(w.change.Result)
	}
	return w.rail
}

func (w *mainWindow) guardStation(i int) {
	w.guard.Wrap(partWindow, func() { w.openStation(i) })()
}

// openStation opens the fields of a station, or closes them; one at which something is tried has that put back.
func (w *mainWindow) openStation(i int) {
	if w.rail.Trying(i) { // what is said to be tried there is put back there
		w.trial.PutBack()
		return
	}
	w.trial.PutBackFor("trial.ended-left")
	if w.sides.at == sideFields && w.tray.Station() == job.Stations()[i] {
		w.sides.close()
		return
	}
	w.tray.Open(job.Stations()[i])
	w.sides.openFields()
}

// markStation shows on the rail which station's fields are open.
func (w *mainWindow) markStation() {
	at := -1
	if w.sides.at == sideFields {
		at = slices.Index(job.Stations(), w.tray.Station())
	}
	w.rail.Open(at)
	open := func(s job.Station) bool { return at >= 0 && job.Stations()[at] == s }
	w.showRoom(open(job.StationRoom))
	w.plan.ShowReadings(open(job.StationFloor))
	w.tray.StopReading()
	w.plan.ReadAt = nil
}

// showRoom gives the drawings' place to the plan while the room is measured; picture and section wait.
func (w *mainWindow) showRoom(on bool) {
	w.frame.giveRoom(on)
	w.putInRow(on)
	w.waiting.Hidden = !on
	w.drawings.plan.ground.Refresh()
	if !on {
		w.plan.ShowRoom(nil)
		return
	}
	w.drawings.SelectIndex(1)
	lit := w.tray.Lit()
	w.plan.ShowRoom(&lit)
}

// layout builds the window's content.
func (w *mainWindow) layout() fyne.CanvasObject {
	arrangement := usualArrangement()
	if w.frame != nil { // the language has changed
		arrangement = w.frame.arrangement
	}
	arrangement.large = w.theme.IsLarge()
	w.frame = newFrame(arrangement)
	w.frame.slide.moves = w.theme.Moves
	w.drawings = newPanes(&w.views, w.frame, w.keys, w.atLevel)
	w.tag = newPlanTag(w)
	w.fillPanes()
	w.sides = newSides(w.frame, w.keys, []side{
		{"app.levels", w.levels.Object()}, {"app.runs", w.runs.Object()}, {"app.water", w.water.Object()},
		{"app.checks", w.checks.Object()}, {"app.job", container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, theme.Space1, theme.Space2), w.jobPanel.object()))}})
	w.sides.fields = w.tray.Object()
	w.frame.fill(regionTop, w.topBar())
	w.frame.fill(regionAnswer, w.answerColumn())
	note := control.NewText(theme.Word("app.underfall-informs-it-does-not-certify")).Styled(theme.TextLayer, false, theme.Caption)
	flat := 3 - fynetheme.InnerPadding() // what a line takes less above and below than a label does
	w.frame.fill(regionReadout, container.New(layout.NewCustomPaddedLayout(flat, flat, 0, 0), container.NewBorder(nil, nil, nil, note, w.status)))
	w.frame.fill(regionRail, w.railBar())
	w.frame.fill(regionTrial, w.trial.Object())
	w.sides.close()
	return w.frame.all
}

// tools are those whose state follows the view or the desk.
type tools struct {
	undo, redo  *control.ToolButton
	cutCheck    *control.Check
	cuts        *cutPlaces
	fit         *control.Press // brings drawing and cut back; held down while there is anything to bring back
	looks       *control.Choice
	planHead    *planHead
	waiting     *control.Text // says that other drawings wait while the room is measured
	settings    viewSettings
	pictureHead *pictureHead
	stage       *control.Steps
}

// tool makes a button of the toolbar.
func (w *mainWindow) tool(label message.ID, icon fyne.Resource, hint message.ID, f func()) *control.ToolButton {
	return control.NewToolButton(w.keys, theme.Word(label), icon, func() string { return theme.Word(hint) }, w.read, w.guard.Wrap(partWindow, f))
}

// undoAndRedo makes the tools for that; their hints name the edit they are about.
func (w *mainWindow) undoAndRedo() (undo, redo *control.ToolButton) {
	naming := func(hint, none message.ID, edit func(desk.Change) message.Message) func() string {
		return func() string {
			if name := edit(w.change); !name.IsZero() {
				return theme.Word(hint, message.In("edit", name))
			}
			return theme.Word(none)
		}
	}
	undo = w.tool("tool.undo", fynetheme.ContentUndoIcon(), "", w.undoLast)
	undo.Hint = naming("tool.undo.hint", "tool.undo.none", func(c desk.Change) message.Message { return c.Undo })
	redo = w.tool("tool.redo", fynetheme.ContentRedoIcon(), "", w.redoLast)
	redo.Hint = naming("tool.redo.hint", "tool.redo.none", func(c desk.Change) message.Message { return c.Redo })
	return undo, redo
}

// cutTool makes the tool that cuts the picture or not.
func (w *mainWindow) cutTool() *control.Check {
	return control.NewCheck(w.keys, theme.Word("app.cut"), func(on bool) {
		w.stay()
		w.sight.Change(func(s *sight.State) { s.CutOn = on })
		// What was cut away hides what the whole should be looked at from.
		if on {
			w.view.Look(viewer.ViewCut)
		} else {
			w.view.Look(viewer.ViewCorner)
		}
		w.release()
	})
}

// lookChoice makes the tool that chooses how the picture is drawn.
func (w *mainWindow) lookChoice() *control.Choice {
	return control.NewChoice(w.keys, theme.Word("app.drawn-how"), looks(), "", func(id string) {
		w.sight.Change(func(s *sight.State) { s.Look = lookOf(id) })
		w.log("look %d", w.sight.Look)
	})
}

// looks are the ways of drawing the picture, in their order.
func looks() (out []control.Option) {
	for i, name := range []message.ID{"app.finished", "app.technical", "app.see-through", "app.heights"} {
		out = append(out, control.Option{ID: strconv.Itoa(i), Text: theme.Word(name)})
	}
	return out
}

// lookOf is the way of drawing that an option stands for.
func lookOf(id string) viewer.Look {
	i, _ := strconv.Atoi(id) // as looks wrote it
	return viewer.Look(i)
}

// release takes the focus off the tools, so that plain keys reach the window.
func (w *mainWindow) release() {
	// Not at once: a list of choices gives the focus back when it closes. From
	// another goroutine, as the queue may be this one's own.
	w.guard.Go(partChange, func() { w.sight.Do(func() { w.window.Canvas().Unfocus() }) })
}

// togglePressing has points of the drawings pressed for something, or no more where they are.
func (w *mainWindow) togglePressing(what sight.Pressing) {
	if w.sight.Pressing == what {
		what = sight.PressingNothing
	}
	w.setPressing(what)
}

// setPressing has points of the drawings pressed for something, told in the line below.
func (w *mainWindow) setPressing(what sight.Pressing) {
	before := w.sight.Pressing
	w.status.SetText("")
	switch what {
	case sight.PressingMeasure:
		w.status.SetText(theme.Word("app.click-two-points-of-the-drawing"))
	case sight.PressingCut:
		w.drawings.show(w.plan)
		w.status.SetText(theme.Word("cut.press-two-points"))
	case sight.PressingRod:
		w.status.SetText(theme.Word("rod.press-a-point"))
	}
	w.sight.Change(func(s *sight.State) { s.Pressing = what })
	for _, p := range []sight.Pressing{before, what} {
		if p != sight.PressingNothing {
			w.log("%s %v", p, p == what)
		}
	}
}
