package start

import (
	"image"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/progress"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// Job is a row of the list: a job that was opened or saved here.
type Job struct {
	Path, Name string
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
	Sheet    question.Sheet
	Jobs     []Job
	Kept     []Kept
	Examples []Example
	// Where is the country, the units and the language, for the press that changes them.
	Where string
	// Unkept says that nothing can be kept, and why; empty where it can.
	Unkept string
	Keys   *control.Keys
	// What is asked for. Begin gets the sheet begun on the page, Find tells what is looked for.
	Begin                       func(question.Sheet)
	Open, Remove, Seek, Copy    func(path string)
	OpenFile, Parts, Light      func()
	ChangeWhere                 func()
	LookAt, BringBack, SetAside func(kept int)
	Example                     func(i int)
}

// Front is the start page.
type Front struct {
	o      FrontOptions
	sheet  question.Sheet
	long   *lengthField
	wide   *lengthField
	floors []*choice
	find   *control.Entry
	rows   *fyne.Container
	shown  []*row
	listed *container.Scroll
	object fyne.CanvasObject
	under  []question.FloorIs
	worked *fyne.Container // the examples
}

// NewFront makes the page.
func NewFront(o FrontOptions) *Front {
	f := &Front{o: o, sheet: o.Sheet}
	f.object = f.lay()
	f.refresh()
	return f
}

// Object is the page.
func (f *Front) Object() fyne.CanvasObject { return f.object }

// Focus has the keys go to the first length of the new job.
func (f *Front) Focus() { f.long.field.Focus() }

// Find has the keys go to what is looked for.
func (f *Front) Find() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(f.find); c != nil {
		c.Focus(f.find)
	}
}

// SetExamples shows other examples: with what was worked out meanwhile.
func (f *Front) SetExamples(all []Example) {
	f.o.Examples = all
	f.worked.Objects = []fyne.CanvasObject{f.examples()}
	f.worked.Refresh()
}

// SetJobs shows other rows: what was worked out meanwhile.
func (f *Front) SetJobs(all []Job) {
	f.o.Jobs = all
	f.list()
}

// lay puts the page together.
func (f *Front) lay() fyne.CanvasObject {
	f.rows, f.worked = container.NewVBox(), container.NewStack(f.examples())
	f.listed = besideBar(f.rows)
	left := container.New(&over{theme.Space1}, container.NewBorder(f.listHead(), nil, nil, nil, f.listed), f.bands())
	right := container.NewBorder(headOf(theme.Word("start.examples"), theme.Word("start.open-as-copy")),
		paragraph(theme.Word("start.informs"), theme.TextCaption, theme.Caption), nil, nil, besideBar(container.NewVBox(f.worked)))
	top := container.NewVBox(f.bar(), gap(1, theme.Space2), f.band(), gap(1, theme.Space2))
	return container.New(inset{18, 8}, container.NewBorder(top, nil, nil, nil, container.New(&halves{}, left, right)))
}

// besideBar scrolls something, with room for the bar at its right.
func besideBar(o fyne.CanvasObject) *container.Scroll {
	const bar = 8
	return container.NewVScroll(container.New(inset{2, 2}, container.NewBorder(nil, nil, nil, gap(bar, 1), o)))
}

func headOf(title, about string) fyne.CanvasObject {
	return container.New(inset{0, 6}, container.NewHBox(bold(title, theme.TextTray, theme.Ink), gap(theme.Space1, 1),
		container.NewCenter(line(about, theme.TextCaption, theme.Caption))))
}

// bar is the top of the page.
func (f *Front) bar() fyne.CanvasObject {
	light := control.NewPress(f.o.Keys, theme.Word("start.light"), f.o.Light).WithIcon(theme.IconLight)
	parts := control.NewPress(f.o.Keys, theme.Word("start.parts"), f.o.Parts).WithIcon(theme.IconShelf)
	open := control.NewPress(f.o.Keys, theme.Word("start.open-file"), f.o.OpenFile)
	where := control.NewPress(f.o.Keys, f.o.Where, f.o.ChangeWhere)
	presses := container.NewHBox(open)
	if f.o.Parts != nil {
		presses.Add(parts)
	}
	presses.Add(light)
	presses.Add(sized(bold(f.o.Where, theme.TextSecond, theme.Ink).WidestLine()+2*theme.Space8, theme.PressHeight, where))
	return container.NewHBox(container.NewCenter(bold("Underfall", theme.TextTray, theme.Ink)), gap(theme.Space1, 1),
		container.NewCenter(line(theme.Word("start.what-it-is"), theme.TextCaption, theme.Caption)), layout.NewSpacer(), presses)
}

// band begins a new job.
func (f *Front) band() fyne.CanvasObject {
	to := lengthIntents{sheet: func() question.Sheet { return f.sheet }, typed: func(question.Entry, question.Length) {}, entered: f.begin,
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
	about := theme.Word("start.takes-a-minute")
	if len(f.o.Jobs) == 0 {
		about = theme.Word("start.nothing-here")
	}
	title := container.NewVBox(layout.NewSpacer(), bold(theme.Word("start.new"), theme.TextHeadline, theme.Ink),
		sized(aboutWide, 1, paragraph(about, theme.TextCaption, theme.Caption)), layout.NewSpacer())
	begin := container.NewVBox(sized(92, 46, control.NewFilled(f.o.Keys, theme.Word("start.start"), f.begin)),
		container.NewCenter(line(theme.Word("start.or-enter"), theme.TextCaption, theme.Caption)))
	inside := container.NewHBox(title, gap(theme.Space3, 1), room, gap(theme.Space3, 1), under, layout.NewSpacer(), begin)
	back := canvas.NewRectangle(of(theme.Sheet))
	back.StrokeColor, back.StrokeWidth, back.CornerRadius = of(theme.Press), theme.FocusWidth, theme.Radius
	return container.NewStack(back, container.New(inset{20, 14}, inside))
}

// aboutWide is how wide the line under the band's title is: the whole band goes into the least
// window.
const aboutWide = 172

// begin asks for the sheet of questions with what was answered here; a length that was not taken
// has the keys first.
func (f *Front) begin() {
	for _, l := range []*lengthField{f.long, f.wide} {
		if l.field.Refused() != "" {
			l.field.Focus()
			return
		}
	}
	f.o.Begin(f.sheet)
}

// Begin is what Enter does wherever nothing else takes it.
func (f *Front) Begin() { f.begin() }

// refresh brings the band to what was answered in it.
func (f *Front) refresh() {
	for _, l := range []*lengthField{f.long, f.wide} {
		l.show(f.sheet, f.o.Practice.UsualMM(f.sheet, l.e))
	}
	for i, c := range f.floors {
		c.chosen = f.sheet.Floor.Is == f.under[i] && (f.sheet.Floor.Said || f.sheet.Floor.Is != question.FloorNotKnown)
		c.Refresh()
	}
	f.list()
}

// listHead is over the rows: what they are, and what is looked for among them.
func (f *Front) listHead() fyne.CanvasObject {
	f.find = control.NewEntry(f.o.Keys)
	f.find.SetPlaceHolder(theme.Word("start.find"))
	f.find.OnChanged = func(string) { f.list() }
	f.find.OnEscape = func() { f.find.SetText("") }
	head := headOf(theme.Word("start.your-jobs"), theme.Word("start.by-what-comes-next"))
	return container.NewBorder(nil, nil, head, container.NewCenter(sized(230, theme.SmallHeight, f.find)))
}

// list shows the rows that are looked for, those where most is to be done first.
func (f *Front) list() {
	f.rows.RemoveAll()
	f.shown = nil
	wanted := strings.ToLower(strings.TrimSpace(f.find.Text))
	for _, j := range sorted(f.o.Jobs) {
		if wanted != "" && !strings.Contains(strings.ToLower(j.Name+" "+j.Path), wanted) {
			continue
		}
		if len(f.shown) > 0 {
			f.rows.Add(gap(1, 2))
		}
		r := newRow(f, j)
		f.shown = append(f.shown, r)
		f.rows.Add(r)
	}
	if len(f.shown) == 0 {
		id := message.ID("start.no-jobs")
		if wanted != "" {
			id = "start.none-found"
		}
		f.rows.Add(container.New(inset{12, 12}, line(theme.Word(id), theme.TextSecond, theme.Caption)))
	}
	f.rows.Refresh()
}

// sorted are the jobs by what comes next: what cannot be built first, then what is not known, then what
// is to be settled, those looked at last first among them; what cannot be read at the end.
func sorted(all []Job) []Job {
	all = slices.Clone(all)
	weight := func(j Job) int {
		if j.Summary == nil {
			return 4
		}
		return slices.Index([]geometry.Standing{geometry.Stops, geometry.NotKnown, geometry.Tight, geometry.Sound}, j.Summary.Standing)
	}
	slices.SortStableFunc(all, func(a, b Job) int {
		if by := weight(a) - weight(b); by != 0 {
			return by
		}
		return b.At.Compare(a.At)
	})
	return all
}

// bands are of work that was not saved.
func (f *Front) bands() fyne.CanvasObject {
	all := stacked(theme.Space1)
	for i, k := range f.o.Kept {
		text := stacked(2, bold(theme.Word("start.not-saved", message.Name("job", k.Name)), theme.TextBody, theme.Ink),
			paragraph(k.About, theme.TextSecond, theme.Ink))
		bring := control.NewFilled(f.o.Keys, theme.Word("start.bring-back"), func() { f.o.BringBack(i) })
		presses := container.NewHBox(control.NewPress(f.o.Keys, theme.Word("start.look-at-it"), func() { f.o.LookAt(i) }), bring,
			control.NewPress(f.o.Keys, theme.Word("start.leave-it"), func() { f.o.SetAside(i) }))
		all.Add(gap(1, theme.Space1))
		all.Add(sheetOf(theme.TightGround, theme.Tight, theme.Space2, container.NewBorder(nil, nil,
			container.NewCenter(mark(theme.Mark{Kind: theme.VialTight}, 36)), container.NewCenter(presses), text)))
	}
	if f.o.Unkept != "" {
		all.Add(paragraph(f.o.Unkept, theme.TextSecond, theme.Tight))
	}
	return all
}

// examples are pictures to be pressed, beside each other.
func (f *Front) examples() fyne.CanvasObject {
	all := container.NewGridWithColumns(2)
	for i, e := range f.o.Examples {
		pic := fyne.CanvasObject(planSketch(e.Plan).object(112, 84))
		if e.Picture != nil {
			img := canvas.NewImageFromImage(e.Picture)
			img.FillMode = canvas.ImageFillContain
			img.SetMinSize(fyne.NewSize(112, 84))
			pic = img
		}
		name := boldly(e.Name, theme.TextSecond, theme.Ink)
		about := paragraph(e.About, theme.TextCaption, theme.Caption)
		all.Add(newChoice(f.o.Keys, e.Name, stacked(2, pic, name, about), func() { f.o.Example(i) }))
	}
	return all
}

// halves sets the list of jobs beside the examples.
type halves struct{}

// Share of the width that the jobs have.
const jobsShare = 0.645

// Layout places them.
func (h *halves) Layout(o []fyne.CanvasObject, s fyne.Size) {
	wide := s.Width * jobsShare
	o[0].Resize(fyne.NewSize(wide, s.Height))
	o[1].Move(fyne.NewPos(wide+theme.Space6, 0))
	o[1].Resize(fyne.NewSize(s.Width-wide-theme.Space6, s.Height))
}

// MinSize is that of the least window.
func (h *halves) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(960, 300) }
