package start

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/progress"
)

// rowHigh is how high a row is at least: room for a thumb.
const rowHigh = 84

// row is a job of the list. It is opened by a press or by Enter; the right button, or the key for that,
// has the rest.
type row struct {
	choice
	list *jobList
	job  Job
}

func newRow(l *jobList, j Job) *row {
	r := &row{list: l, job: j}
	r.keys = l.front.o.Keys
	r.says = j.Name
	r.press = r.open
	r.flat = true
	r.inside = r.lay()
	r.ExtendBaseWidget(r)
	return r
}

// open opens the job, or looks for one that is gone.
func (r *row) open() {
	if r.job.Gone {
		r.list.front.o.Seek(r.job.Path)
		return
	}
	r.list.front.o.Open(r.job.Path)
}

// TypedKey opens it on Enter, goes up and down the list on the arrows, takes it off the list on Delete,
// and shows what else there is on the key for that.
func (r *row) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyUp:
		r.list.move(r, -1)
	case fyne.KeyDown:
		r.list.move(r, 1)
	case fyne.KeyDelete:
		r.list.front.o.Remove(r.job.Path)
	case desktop.KeyMenu:
		r.showMenu()
	case fyne.KeyF10:
		if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok && d.CurrentKeyModifiers() == fyne.KeyModifierShift {
			r.showMenu()
		}
	default:
		r.choice.TypedKey(e)
	}
}

// TappedSecondary shows what else can be done with it.
func (r *row) TappedSecondary(e *fyne.PointEvent) { r.menuAt(e.AbsolutePosition) }

// showMenu shows it for the keys: over the row.
func (r *row) showMenu() {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(r)
	r.menuAt(at.AddXY(rowPicture, r.Size().Height/2))
}

func (r *row) menuAt(at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(r.menu(), fyne.CurrentApp().Driver().CanvasForObject(r), at)
}

// menu is all that can be done with the job. Of one that is gone there is nothing to copy.
func (r *row) menu() *fyne.Menu {
	o := &r.list.front.o
	item := func(id message.ID, do func(path string)) *fyne.MenuItem {
		return fyne.NewMenuItem(theme.Word(id), func() { do(r.job.Path) })
	}
	if r.job.Gone {
		return fyne.NewMenu("", item("start.row-seek", o.Seek), item("start.row-remove", o.Remove))
	}
	return fyne.NewMenu("", item("start.row-open", o.Open), item("start.row-folder", o.Folder),
		item("start.row-copy", o.Copy), fyne.NewMenuItemSeparator(), item("start.row-remove", o.Remove))
}

// lay puts the row together.
func (r *row) lay() fyne.CanvasObject {
	j := r.job
	ink := theme.Ink
	if j.Gone {
		ink = theme.Caption
	}
	about := middleOf(3, boldly(j.Name, theme.TextBody, ink), paragraph(r.about(), theme.TextCaption, theme.Caption))
	pic, build := gap(rowPicture-16, 64), gap(rowBuild-12, 60)
	says := middleOf(2)
	switch s := j.Summary; {
	case s != nil:
		pic = planSketch(s.Plan).object(rowPicture-16, 64)
		about.Add(bars(s))
		if j.HasBuild {
			build = stepSketch(j.Build).object(rowBuild-12, 60)
		}
		stands := container.NewVBox(container.New(inset{0, 3}, mark(theme.VialOf(s.Standing), 30)))
		says.Add(container.New(besideMark{}, stands, boldly(theme.Say(s.Headline, j.Units), theme.TextBody, theme.Ink)))
		says.Add(paragraph(firstSentence(theme.Say(s.Next, j.Units)), theme.TextSecond, theme.Ink))
	case j.Gone:
		says.Add(paragraph(theme.Word("start.gone"), theme.TextSecond, theme.Caption))
	case j.Trouble != "":
		says.Add(paragraph(j.Trouble, theme.TextSecond, theme.Ink))
	default:
		says.Add(paragraph(theme.Word("start.working-out"), theme.TextSecond, theme.Caption))
	}
	return container.New(rowPlaces{}, container.NewCenter(pic), about, container.NewCenter(build), says)
}

// about says when the job was looked at and where it is in the order of work.
func (r *row) about() string {
	switch {
	case r.job.Newer:
		return r.job.When + " · " + theme.Word("start.row-newer")
	case r.job.Summary != nil:
		return r.job.When + " · " + theme.Word(r.job.Summary.Where())
	}
	return r.job.When
}

// firstSentence is as much of a text as says what to do.
func firstSentence(s string) string {
	if before, _, more := strings.Cut(s, ". "); more {
		return before + "."
	}
	return s
}

// besideMark sets text that wraps beside the mark of a standing.
type besideMark struct{}

const markWide = 30 + theme.Space1

// Layout places them.
func (besideMark) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Resize(fyne.NewSize(markWide, o[0].MinSize().Height))
	o[1].Move(fyne.NewPos(markWide, 0))
	o[1].Resize(fyne.NewSize(max(s.Width-markWide, 0), s.Height))
}

// MinSize is that of the text at the width it has.
func (besideMark) MinSize(o []fyne.CanvasObject) fyne.Size {
	m := o[1].MinSize()
	return fyne.NewSize(m.Width+markWide, max(m.Height, o[0].MinSize().Height))
}

// bars are of the seven stations: filled where nothing is left to say.
func bars(s *progress.Summary) fyne.CanvasObject {
	all := container.New(barPlaces{})
	for _, settled := range s.Settled {
		b := canvas.NewRectangle(of(theme.Line))
		if settled {
			b.FillColor = of(theme.Press)
		}
		b.CornerRadius = 2
		b.SetMinSize(fyne.NewSize(1, barHigh-3))
		if settled {
			b.SetMinSize(fyne.NewSize(1, barHigh))
		}
		all.Add(b)
	}
	return all
}

// barPlaces are those of the bars: beside each other, as wide as there is room, and in one line.
type barPlaces struct{}

const barWide, barHigh, barGap = 28, 7, 5

// Layout places them.
func (barPlaces) Layout(o []fyne.CanvasObject, s fyne.Size) {
	n := float32(len(o))
	wide := min(barWide, (s.Width-(n-1)*barGap)/n)
	for i, b := range o {
		high := b.MinSize().Height
		b.Move(fyne.NewPos(float32(i)*(wide+barGap), s.Height-barHigh+(barHigh-high)/2))
		b.Resize(fyne.NewSize(wide, high))
	}
}

// MinSize is that of one line.
func (barPlaces) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1, barHigh+3) }

// rowPlaces are where the parts of a row stand: the pictures have their widths, the texts share the rest.
type rowPlaces struct{}

// Widths in a row, and the share of the rest that the job's name has.
const (
	rowPicture, rowBuild = 92, 78
	nameShare            = 0.45
)

// Layout places them.
func (rowPlaces) Layout(o []fyne.CanvasObject, s fyne.Size) {
	text := s.Width - rowPicture - rowBuild
	at := float32(0)
	for i, w := range []float32{rowPicture, text * nameShare, rowBuild, text * (1 - nameShare)} {
		o[i].Move(fyne.NewPos(at, 0))
		o[i].Resize(fyne.NewSize(w-theme.Space1, s.Height))
		at += w
	}
}

// MinSize is as high as its texts are at the widths they have.
func (rowPlaces) MinSize(o []fyne.CanvasObject) fyne.Size {
	high := float32(rowHigh - 2*choiceUpright)
	for _, part := range o {
		high = max(high, part.MinSize().Height)
	}
	return fyne.NewSize(520, high)
}
