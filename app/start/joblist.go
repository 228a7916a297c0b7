package start

import (
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
)

// jobList is the list of jobs on the start page, with what is looked for among them.
type jobList struct {
	front *Front
	find  *control.Entry
	rows  *fyne.Container
	shown []*row
	all   bool // not the latest only
	box   *container.Scroll
}

func newJobList(f *Front) *jobList {
	l := &jobList{front: f, rows: container.New(&column{}), find: control.NewEntry(f.o.Keys)}
	l.find.SetPlaceHolder(theme.Word("start.find"))
	l.find.OnChanged = func(string) { l.show() }
	l.find.OnEscape = func() { l.find.SetText("") }
	l.find.OnStep = func(steps float64) {
		if steps < 0 {
			l.enter()
		}
	}
	l.find.OnSubmitted = func(string) {
		if l.enter(); len(l.shown) == 1 {
			l.shown[0].open()
		}
	}
	back := canvas.NewRectangle(of(theme.Sheet))
	back.StrokeColor, back.StrokeWidth, back.CornerRadius = of(theme.Line), theme.EdgeWidth, theme.Radius
	l.box = inMargin(stacked(0, container.NewStack(back, container.New(inset{1, 1}, l.rows))))
	return l
}

// object is the list under its head.
func (l *jobList) object() fyne.CanvasObject {
	head := headOf(theme.Word("start.your-jobs"), theme.Word("start.by-what-comes-next"))
	found := container.New(layout.NewCustomPaddedLayout(0, 0, 0, marginBar), container.NewCenter(sized(230, theme.SmallHeight, l.find)))
	return container.NewBorder(container.NewBorder(nil, nil, head, found), nil, nil, nil, l.box)
}

// enter has the keys go to the first row.
func (l *jobList) enter() {
	if len(l.shown) > 0 {
		l.focusOn(0)
	}
}

// focusOn has the keys go to a row, and brings it into sight.
func (l *jobList) focusOn(i int) {
	r := l.shown[i]
	control.FocusOn(r)
	top, high := r.Position().Y, r.Size().Height
	switch at := l.box.Offset.Y; {
	case top < at:
		l.box.ScrollToOffset(fyne.NewPos(0, top))
	case top+high > at+l.box.Size().Height:
		l.box.ScrollToOffset(fyne.NewPos(0, top+high-l.box.Size().Height+2*theme.Space1))
	}
}

// move has the keys go from a row to the one above or below; above the first is what is looked for.
func (l *jobList) move(from *row, by int) {
	switch i := slices.Index(l.shown, from) + by; {
	case i < 0:
		control.FocusOn(l.find)
	case i < len(l.shown):
		l.focusOn(i)
	}
}

// show shows the rows that are looked for, those where most is to be done first. The row that has the
// keys keeps them.
func (l *jobList) show() {
	had := ""
	for _, r := range l.shown {
		if r.focused {
			had = r.job.Path
		}
	}
	l.rows.Objects, l.shown = nil, nil
	words := strings.Fields(strings.ToLower(l.find.Text))
	jobs, older := l.front.o.Jobs, 0
	switch {
	case len(words) > 0:
		jobs = slices.DeleteFunc(slices.Clone(jobs), func(j Job) bool { return !j.has(words) })
		l.askAll()
	case !l.all:
		jobs, older = latest(jobs, l.front.o.Latest)
	}
	for _, j := range sorted(jobs) {
		if len(l.shown) > 0 {
			l.rows.Add(thin())
		}
		r := newRow(l, j)
		l.shown = append(l.shown, r)
		l.rows.Add(r)
	}
	if older > 0 {
		press := control.NewPress(l.front.o.Keys, theme.Word("start.show-all"), func() {
			l.askAll()
			l.show()
		})
		l.rows.Add(thin())
		l.rows.Add(container.New(inset{12, 6}, container.NewHBox(
			container.NewCenter(line(theme.Word("start.older", message.N("n", older)), theme.TextSecond, theme.Caption)), press)))
	}
	if len(l.shown) == 0 && len(words) > 0 {
		l.rows.Add(container.New(inset{12, 12}, line(theme.Word("start.none-found"), theme.TextSecond, theme.Caption)))
	}
	l.rows.Refresh()
	l.box.Refresh()
	for _, r := range l.shown {
		if r.job.Path == had {
			control.FocusOn(r)
		}
	}
}

// askAll has all jobs worked out, not only the latest.
func (l *jobList) askAll() {
	if !l.all {
		l.all = true
		l.front.o.All()
	}
}

// has tells whether a job has all words, in small letters, in its name, its notes, its file's name or its folder's.
func (j Job) has(words []string) bool {
	folder, file := filepath.Split(j.Path)
	text := strings.ToLower(strings.Join([]string{j.Name, j.Notes, file, filepath.Base(folder)}, "\n"))
	return !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(text, w) })
}

// latest are so many jobs, those that were looked at last; older tells how many others there are.
func latest(all []Job, n int) (jobs []Job, older int) {
	if len(all) <= n {
		return all, 0
	}
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b Job) int { return b.At.Compare(a.At) })
	return all[:n], len(all) - n
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
