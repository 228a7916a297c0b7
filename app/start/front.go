package start

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/progress"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// Job is a row of the list: a job that was opened or saved here.
type Job struct {
	Path, Name string
	// Notes are the job's; they are looked through as its name is.
	Notes string
	// When says when it was looked at last.
	At   time.Time
	When string
	// Summary is nil while it is being worked out, and of a job that cannot be read; Trouble says
	// why that is, Gone that there is no file any more.
	Summary  *progress.Summary
	Build    Build
	HasBuild bool
	Units    unit.System
	Trouble  string
	Gone     bool
	// Newer tells that a later version of Underfall wrote it: it may be looked at.
	Newer bool
}

// Kept is work that was not saved.
type Kept struct{ Name, About string }

// Example is a worked example.
type Example struct {
	Name, About string
	Picture     image.Image // nil for none
	Plan        progress.Plan
}

// FrontOptions are what the start page gets and what it asks for.
type FrontOptions struct {
	Practice question.Practice
	// Sheet is what the new job begins with.
	Sheet question.Sheet
	// Jobs are all there are; nil until the list is read.
	Jobs []Job
	// Latest is how many of them are shown unless all are asked for: those looked at last.
	Latest   int
	Kept     []Kept
	Examples []Example
	// Where is the country, the units and the language, for the press that changes them.
	Where string
	// Unkept says that nothing can be kept, and why; empty where it can.
	Unkept string
	// OnDesk says which job is open on the desk, and Back leads back to it; empty and nil without one.
	OnDesk string
	Back   func()
	Keys   *control.Keys
	// What is asked for. Begin gets the sheet begun on the page; All asks for all jobs to be worked out.
	Begin                            func(question.Sheet)
	Open, Remove, Seek, Copy, Folder func(path string)
	OpenFile, Parts, Light           func()
	ChangeWhere, All                 func()
	LookAt, BringBack, SetAside      func(kept int)
	Example                          func(i int)
}

// Front is the start page.
type Front struct {
	o        FrontOptions
	sheet    question.Sheet
	long     *lengthField
	wide     *lengthField
	floors   []*choice
	under    []question.FloorIs
	about    *control.Text // the line under the band's title
	list     *jobList
	jobs     fyne.CanvasObject // the list with its head
	kept     fyne.CanvasObject // bands of work that was not saved
	worked   *fyne.Container   // the examples
	examples fyne.CanvasObject // with their head
	informs  fyne.CanvasObject // that Underfall does not certify
	places   *pagePlaces
	body     *fyne.Container
	object   fyne.CanvasObject
}

// NewFront makes the page.
func NewFront(o FrontOptions) *Front {
	f := &Front{o: o, sheet: o.Sheet}
	f.list = newJobList(f)
	f.object = f.lay()
	f.refresh()
	f.SetJobs(o.Jobs)
	return f
}

// Object is the page.
func (f *Front) Object() fyne.CanvasObject { return f.object }

// Focus has the keys go to the first length of the new job.
func (f *Front) Focus() { f.long.field.Focus() }

// Find has the keys go to what is looked for; without jobs there is nothing to be found.
func (f *Front) Find() {
	if !f.empty() {
		control.FocusOn(f.list.find)
	}
}

// Rows has the keys go to the first row of the list.
func (f *Front) Rows() { f.list.enter() }

// SetExamples shows other examples: with what was worked out meanwhile.
func (f *Front) SetExamples(all []Example) {
	f.o.Examples = all
	f.worked.Objects = f.exampleCards()
	f.worked.Refresh()
}

// SetJobs shows other rows: what was worked out meanwhile.
func (f *Front) SetJobs(all []Job) {
	f.o.Jobs = all
	about := theme.Word("start.takes-a-minute")
	if f.empty() {
		about = theme.Word("start.nothing-here")
	}
	f.about.SetText(about)
	f.places.empty = f.empty()
	if f.jobs.Hide(); !f.empty() {
		f.jobs.Show()
	}
	f.list.show()
	f.body.Refresh()
}

// empty tells whether there are no jobs: the examples have their place then.
func (f *Front) empty() bool { return f.o.Jobs != nil && len(f.o.Jobs) == 0 }

// lay puts the page together.
func (f *Front) lay() fyne.CanvasObject {
	f.jobs, f.kept = f.list.object(), f.bands()
	f.worked = container.New(cards{}, f.exampleCards()...)
	// Both heads stand in one line.
	head := container.NewStack(gap(1, f.list.find.MinSize().Height), headOf(theme.Word("start.examples"), theme.Word("start.open-as-copy")))
	f.examples = container.NewBorder(head, nil, nil, nil, inMargin(f.worked))
	f.informs = paragraph(theme.Word("start.informs"), theme.TextCaption, theme.Caption)
	f.places = &pagePlaces{}
	f.body = container.New(f.places, f.jobs, f.kept, f.examples, f.informs)
	top := container.NewVBox(f.bar(), gap(1, theme.Space1))
	if f.o.Back != nil {
		top.Add(f.wayBack())
	}
	top.Add(f.band())
	top.Add(gap(1, theme.Space1))
	return container.New(inset{18, 8}, container.NewBorder(top, nil, nil, nil, f.body))
}

// bar is how wide the bar of what is scrolled is, marginBar how far it stands out into the page's margin.
const bar, marginBar = 8, 12

// inMargin scrolls something that ends where all of the page ends: the bar stands in the page's margin.
func inMargin(o fyne.CanvasObject) *container.Scroll {
	return container.NewVScroll(container.New(layout.NewCustomPaddedLayout(2, 2, 0, marginBar), o))
}

// besideBar scrolls something, with room for the bar at its right.
func besideBar(o fyne.CanvasObject) *container.Scroll {
	return container.NewVScroll(container.New(inset{2, 2}, container.NewBorder(nil, nil, nil, gap(bar, 1), o)))
}

func headOf(title, about string) fyne.CanvasObject {
	return container.New(inset{0, 6}, container.NewHBox(bold(title, theme.TextTray, theme.Ink), gap(theme.Space1, 1),
		container.NewCenter(line(about, theme.TextCaption, theme.Caption))))
}

// bar is the top of the page.
func (f *Front) bar() fyne.CanvasObject {
	does := message.ID("start.make-dark")
	if dark() {
		does = "start.make-light"
	}
	presses := container.NewHBox(control.NewPress(f.o.Keys, theme.Word("start.open-file"), f.o.OpenFile),
		control.NewPress(f.o.Keys, theme.Word("start.parts"), f.o.Parts).WithIcon(theme.IconShelf),
		control.NewPress(f.o.Keys, theme.Word(does), f.o.Light).WithIcon(theme.IconLight),
		wordChoice(f.o.Keys, f.o.Where, f.o.ChangeWhere)) // as wide as its words are
	return container.NewHBox(container.NewCenter(bold("Underfall", theme.TextTray, theme.Ink)), gap(theme.Space1, 1),
		container.NewCenter(line(theme.Word("start.what-it-is"), theme.TextCaption, theme.Caption)), layout.NewSpacer(), presses)
}

// wayBack is the band of the job that is open, and leads back to it.
func (f *Front) wayBack() fyne.CanvasObject {
	back := control.NewPress(f.o.Keys, theme.Word("start.back-to-it"), f.o.Back)
	back.Key = theme.Word("app.key-escape")
	said := paragraph(f.o.OnDesk, theme.TextBody, theme.Ink)
	return sheetOf(theme.Sheet, theme.Edge, theme.Space2, container.NewBorder(nil, nil, nil, back, container.New(upright{}, said)))
}

// band begins a new job.
func (f *Front) band() fyne.CanvasObject {
	to := lengthIntents{sheet: func() question.Sheet { return f.sheet }, typed: func(question.Entry, question.Length) {}, entered: f.Begin,
		take: func(e question.Entry, l question.Length) error {
			f.sheet = f.sheet.With(e, l)
			f.refresh()
			return nil
		}}
	f.long, f.wide = newLength(question.RoomLong, 108, "", f.o.Keys, to), newLength(question.RoomWide, 108, "", f.o.Keys, to)
	room := container.NewVBox(line(theme.Word("start.room-size"), theme.TextCaption, theme.Caption),
		container.NewHBox(f.long.object, times(), f.wide.object))
	f.under = []question.FloorIs{question.Concrete, question.Timber, question.FloorNotKnown}
	floors := container.NewHBox()
	for _, is := range f.under {
		c := newChoice(f.o.Keys, floorName(is), container.NewHBox(container.NewCenter(floorSketch(is, 30, 22)),
			container.NewCenter(bold(floorName(is), theme.TextSecond, theme.Ink))), func() {
			f.sheet.Floor.Is, f.sheet.Floor.Said = is, true
			f.refresh()
		})
		f.floors = append(f.floors, c)
		floors.Add(c)
	}
	among(f.floors)
	under := container.NewVBox(line(theme.Word("start.what-is-under"), theme.TextCaption, theme.Caption), floors)
	f.about = paragraph(theme.Word("start.takes-a-minute"), theme.TextCaption, theme.Caption)
	title := container.NewVBox(layout.NewSpacer(), bold(theme.Word("start.new"), theme.TextHeadline, theme.Ink),
		f.about, layout.NewSpacer())
	begin := container.NewVBox(sized(92, 46, control.NewFilled(f.o.Keys, theme.Word("start.start"), f.Begin)),
		container.NewCenter(line(theme.Word("start.or-enter"), theme.TextCaption, theme.Caption)))
	inside := container.New(bandPlaces{}, title, room, under, begin)
	back := canvas.NewRectangle(of(theme.Sheet))
	back.StrokeColor, back.StrokeWidth, back.CornerRadius = of(theme.Press), theme.FocusWidth, theme.Radius
	return container.NewStack(back, container.New(inset{20, 14}, inside))
}

// bandPlaces set the parts of the band beside each other, the last at its end; the first is as wide as is left,
// to a point: the whole band goes into the least window.
type bandPlaces struct{}

// aboutWide is how wide the line under the band's title is at most, bandGap how far its parts are apart at least.
const aboutWide, bandGap = 172, theme.Space3

// MinSize is with the first at its narrowest.
func (bandPlaces) MinSize(o []fyne.CanvasObject) (s fyne.Size) {
	for i, part := range o {
		m := part.MinSize()
		if s.Height = max(s.Height, m.Height); i > 0 {
			s.Width += bandGap
		}
		s.Width += m.Width
	}
	return s
}

// Layout sets them.
func (b bandPlaces) Layout(o []fyne.CanvasObject, s fyne.Size) {
	room := max(s.Width-b.MinSize(o).Width, 0)
	about := min(max(aboutWide-o[0].MinSize().Width, 0), room)
	apart := bandGap + min((room-about)/2, theme.Space2)
	x := float32(0)
	for i, part := range o {
		wide := part.MinSize().Width
		switch i {
		case 0:
			wide += about
		case len(o) - 1:
			x = s.Width - wide
		}
		part.Move(fyne.NewPos(x, 0))
		part.Resize(fyne.NewSize(wide, s.Height))
		x += wide + apart
	}
}

// Begin asks for the sheet of questions with what was answered here; a length that was not taken
// has the keys first. Enter does it wherever nothing else takes that.
func (f *Front) Begin() {
	for _, l := range []*lengthField{f.long, f.wide} {
		if l.field.Refused() != "" {
			l.field.Focus()
			return
		}
	}
	f.o.Begin(f.sheet)
}

// refresh brings the band to what was answered in it.
func (f *Front) refresh() {
	for _, l := range []*lengthField{f.long, f.wide} {
		l.show(f.sheet, f.o.Practice.UsualMM(f.sheet, l.e))
	}
	for i, c := range f.floors {
		c.chosen = f.sheet.Floor.Is == f.under[i] && (f.sheet.Floor.Said || f.sheet.Floor.Is != question.FloorNotKnown)
		c.Refresh()
	}
}

// bands are of work that was not saved.
func (f *Front) bands() fyne.CanvasObject {
	all := stacked(theme.Space1)
	for i, k := range f.o.Kept {
		text := stacked(2, boldly(theme.Word("start.not-saved", message.Name("job", k.Name)), theme.TextBody, theme.Ink),
			paragraph(k.About, theme.TextSecond, theme.Ink))
		bring := control.NewFilled(f.o.Keys, theme.Word("start.bring-back"), func() { f.o.BringBack(i) })
		presses := container.NewHBox(control.NewPress(f.o.Keys, theme.Word("start.look-at-it"), func() { f.o.LookAt(i) }), bring,
			control.NewPress(f.o.Keys, theme.Word("start.leave-it"), func() { f.o.SetAside(i) }))
		all.Add(sheetOf(theme.TightGround, theme.Tight, theme.Space2, container.NewBorder(nil, nil,
			container.NewHBox(container.NewCenter(mark(theme.Mark{Kind: theme.VialTight}, 36)), gap(theme.Space1, 1)),
			container.NewHBox(gap(theme.Space1, 1), container.NewCenter(presses)), text)))
	}
	if f.o.Unkept != "" {
		all.Add(paragraph(f.o.Unkept, theme.TextSecond, theme.Tight))
	}
	return all
}

// pagePlaces sets the list of jobs over the work that was not saved, beside the examples; without jobs
// the examples have the whole page.
type pagePlaces struct{ empty bool }

// jobsShare is how much of the width the jobs have.
const jobsShare = 0.645

// Layout places them.
func (p *pagePlaces) Layout(o []fyne.CanvasObject, s fyne.Size) {
	jobs, kept, examples, informs := o[0], o[1], o[2], o[3]
	const between = theme.Space6
	wide, at := s.Width*jobsShare, s.Width*jobsShare+between
	if p.empty {
		wide, at = s.Width, 0
	}
	// What stands at the foot is as high as it must be.
	foot := func(o fyne.CanvasObject, x, width float32) float32 {
		high := (&column{}).place([]fyne.CanvasObject{o}, width)
		if high == 0 {
			return s.Height
		}
		o.Move(fyne.NewPos(x, s.Height-high))
		return s.Height - high - theme.Space1
	}
	left, right := foot(kept, 0, wide), foot(informs, at, s.Width-at)
	if p.empty && left < s.Height {
		informs.Move(fyne.NewPos(at, left-informs.Size().Height))
		right = left - informs.Size().Height - theme.Space1
	}
	jobs.Resize(fyne.NewSize(wide+marginBar, max(left, 0)))
	examples.Move(fyne.NewPos(at, 0))
	examples.Resize(fyne.NewSize(s.Width-at+marginBar, max(right, 0)))
}

// MinSize is that of the least window.
func (p *pagePlaces) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(960, 300) }
