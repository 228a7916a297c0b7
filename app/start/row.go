package start

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/progress"
)

// rowHigh is how high a row is: room for a thumb.
const rowHigh = 84

// row is a job of the list. It is opened by a press or by Enter; the right button has the rest.
type row struct {
	choice
	front *Front
	job   Job
}

func newRow(f *Front, j Job) *row {
	r := &row{front: f, job: j}
	r.keys = f.o.Keys
	r.says = j.Name
	r.press = r.open
	r.inside = container.NewStack(gap(1, rowHigh-2*choiceUpright), r.lay())
	r.ExtendBaseWidget(r)
	return r
}

// open opens the job, or looks for one that is gone.
func (r *row) open() {
	if r.job.Gone {
		r.front.o.Seek(r.job.Path)
		return
	}
	r.front.o.Open(r.job.Path)
}

// TypedKey opens it on Enter, goes up and down the list on the arrows, and takes it off the list on
// Delete.
func (r *row) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyUp, fyne.KeyDown:
		by := 1
		if e.Name == fyne.KeyUp {
			by = -1
		}
		for i, o := range r.front.shown {
			if k := i + by; o == r && k >= 0 && k < len(r.front.shown) {
				fyne.CurrentApp().Driver().CanvasForObject(r).Focus(r.front.shown[k])
				return
			}
		}
	case fyne.KeyDelete:
		r.front.o.Remove(r.job.Path)
	default:
		r.choice.TypedKey(e)
	}
}

// TappedSecondary shows what else can be done with it.
func (r *row) TappedSecondary(e *fyne.PointEvent) {
	item := func(id message.ID, do func(string)) *fyne.MenuItem {
		return fyne.NewMenuItem(theme.Word(id), func() { do(r.job.Path) })
	}
	menu := fyne.NewMenu("", item("start.row-open", func(string) { r.open() }))
	if !r.job.Gone {
		menu.Items = append(menu.Items, item("start.row-copy", r.front.o.Copy))
	}
	menu.Items = append(menu.Items, item("start.row-remove", r.front.o.Remove))
	widget.ShowPopUpMenuAtPosition(menu, fyne.CurrentApp().Driver().CanvasForObject(r), e.AbsolutePosition)
}

// lay puts the row together.
func (r *row) lay() fyne.CanvasObject {
	j := r.job
	ink := theme.Ink
	if j.Gone {
		ink = theme.Caption
	}
	about := container.NewVBox(layout.NewSpacer(), boldly(j.Name, theme.TextBody, ink), line(r.about(), theme.TextCaption, theme.Caption))
	pic, build := gap(76, 64), gap(66, 60)
	says := container.NewVBox(layout.NewSpacer())
	switch s := j.Summary; {
	case s != nil:
		pic = planSketch(s.Plan).object(76, 64)
		about.Add(bars(s))
		if j.HasBuild {
			build = stepSketch(j.Build).object(66, 60)
		}
		next := wrapped(firstSentence(theme.Say(s.Next, j.Units)))
		says.Add(container.NewHBox(mark(theme.VialOf(s.Standing), 30), bold(theme.Say(s.Headline, j.Units), theme.TextBody, theme.Ink)))
		says.Add(next)
	case j.Gone:
		says.Add(wrapped(theme.Word("start.gone")))
	case j.Trouble != "":
		says.Add(wrapped(j.Trouble))
	default:
		says.Add(line(theme.Word("start.working-out"), theme.TextSecond, theme.Caption))
	}
	says.Add(layout.NewSpacer())
	about.Add(layout.NewSpacer())
	return container.New(&rowPlaces{}, container.NewCenter(pic), about, container.NewCenter(build), says)
}

// about says when the job was looked at and where it is in the order of work.
func (r *row) about() string {
	if r.job.Summary == nil {
		return r.job.When
	}
	if r.job.Newer {
		return r.job.When + " · " + theme.Word("start.row-newer")
	}
	return r.job.When + " · " + theme.Word(r.job.Summary.At.Name())
}

// firstSentence is as much of a text as says what to do.
func firstSentence(s string) string {
	if before, _, more := strings.Cut(s, ". "); more {
		return before + "."
	}
	return s
}

// wrapped is text of two lines at most.
func wrapped(s string) fyne.CanvasObject {
	return paragraph(s, theme.TextSecond, theme.Ink)
}

// bars are of the seven stations: filled where nothing is left to say.
func bars(s *progress.Summary) fyne.CanvasObject {
	const wide, high = 28, 7
	all := container.NewHBox()
	for _, settled := range s.Settled {
		b := canvas.NewRectangle(of(theme.Line))
		h := float32(high - 3)
		if settled {
			b.FillColor, h = of(theme.Press), high
		}
		b.CornerRadius = 2
		all.Add(container.NewGridWrap(fyne.NewSize(wide, h), b))
	}
	return all
}

// rowPlaces are where the parts of a row stand, in shares of its width.
type rowPlaces struct{}

// Layout places them.
func (rowPlaces) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const picture, build = 92, 78
	text := s.Width - picture - build
	at := float32(0)
	for i, w := range []float32{picture, text * 0.47, build, text * 0.53} {
		o[i].Move(fyne.NewPos(at, 0))
		o[i].Resize(fyne.NewSize(w-theme.Space1, s.Height))
		at += w
	}
}

// MinSize is that of the least list.
func (rowPlaces) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(520, rowHigh-2*choiceUpright)
}
