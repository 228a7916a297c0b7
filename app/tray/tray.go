package tray

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/section"
)

// Tray shows the fields of one station of the work, in the order in which they are asked.
type Tray struct {
	// Opened is told whenever another station is shown; nil for nobody.
	Opened func(job.Station)
	// Lights is told which figure of the room is asked, and when none is any longer; nil for nobody.
	Lights func(section.Lit)
	// Reading is told whether presses on the plan are readings; nil for nobody.
	Reading func(on bool)

	asks     Asks
	shelf    part.Shelf
	keys     *control.Keys
	theme    *theme.Theme
	stations map[job.Station]*station // those that have been open
	open     *station
	holder   *fyne.Container
	picked   []*int // which thing of each list is being edited
	helps    []*help
	asked    map[fyne.CanvasObject]*help       // by the widget that has the focus then
	lit      map[fyne.CanvasObject]section.Lit // what is lit while a field has the focus
	lights   section.Lit                       // what is now
	taped    *tapeRow
	read     *readRow
	now      job.Job
	sold     job.Sold // now, held against its parts as they are sold
}

// New makes the tray for what it needs of the job, the parts to choose from, and the window's
// keys and theme. It opens the first station.
func New(a Asks, shelf part.Shelf, keys *control.Keys, th *theme.Theme) *Tray {
	t := &Tray{asks: a, shelf: shelf, theme: th, holder: container.NewStack(),
		asked: map[fyne.CanvasObject]*help{}, lit: map[fyne.CanvasObject]section.Lit{}}
	t.keys = t.listening(keys)
	t.stations = map[job.Station]*station{}
	t.now = a.Job()
	t.sold = t.now.Sold()
	t.Open(job.StationRoom)
	return t
}

// listening are the window's keys, with the tray told which field is asked.
func (t *Tray) listening(window *control.Keys) *control.Keys {
	keys := *window
	keys.Plain = func(k *fyne.KeyEvent) {
		if window.Plain != nil {
			window.Plain(k)
		}
	}
	keys.Focused = func(o fyne.CanvasObject) {
		if h := t.asked[o]; h != nil {
			t.ask(h)
		}
		t.light(t.lit[o])
		if window.Focused != nil {
			window.Focused(o)
		}
	}
	return &keys
}

// light has a figure of the room be lit.
func (t *Tray) light(lit section.Lit) {
	if lit == t.lights {
		return
	}
	if t.lights = lit; t.Lights != nil {
		t.Lights(lit)
	}
}

// Lit is which figure of the room is asked.
func (t *Tray) Lit() section.Lit { return t.lights }

// FocusMark opens the room and gives the keys to the field of a mark on a tape.
func (t *Tray) FocusMark(m edit.Mark) {
	t.Open(job.StationRoom)
	t.taped.focus(m)
}

// Title is the heading of the station that is open.
func (t *Tray) Title() string { return t.open.title.Text }

// Object is the tray.
func (t *Tray) Object() fyne.CanvasObject { return t.holder }

// Station is the one that is open.
func (t *Tray) Station() job.Station { return t.open.of }

// Open shows a station; nothing for what is none.
func (t *Tray) Open(of job.Station) {
	if t.open != nil && t.open.of == of || len(job.At(of)) == 0 {
		return
	}
	s := t.stations[of]
	if s == nil {
		s = t.station(of)
		t.stations[of] = s
	}
	t.open = s
	s.refresh(t.now)
	t.holder.Objects = []fyne.CanvasObject{s.box}
	t.holder.Refresh()
	if t.Opened != nil {
		t.Opened(of)
	}
}

// Show follows the job.
func (t *Tray) Show(j job.Job) {
	t.now, t.sold = j, j.Sold()
	t.open.refresh(j)
}

// PickFirst goes back to the first thing of every list.
func (t *Tray) PickFirst() {
	for _, at := range t.picked {
		*at = 0
	}
}

// NotTaken names the fields of all stations that show what was typed and not taken.
func (t *Tray) NotTaken() []string {
	var out []string
	for _, of := range allStations() {
		if s := t.stations[of]; s != nil {
			out = append(out, s.notTaken()...)
		}
	}
	return out
}

// Rows are the fields of the station that is open; those of a list's things are within its own.
func (t *Tray) Rows() []Row { return t.open.rows }

// allStations are those of the work, and how exact all is.
func allStations() []job.Station { return append(job.Stations(), job.HowExact) }

// station is one station with its fields.
type station struct {
	of         job.Station
	title      *control.Text
	rows       []Row
	shown      []field
	less       bool // the less used are shown
	lessButton *control.Press
	fields     *fyne.Container
	scroll     *control.Scroller
	place      *helpPlace
	box        *fyne.Container
}

// field is an input with its rows and the heading it stands under, nil where that is said already. Less are those
// of the rows that are less used.
type field struct {
	in         job.Input
	rows, less []Row
	heading    fyne.CanvasObject
}

// station makes a station with its fields.
func (t *Tray) station(of job.Station) *station {
	s := &station{of: of, place: newHelpPlace(t.theme, of.About()), title: control.NewWrapped("").Styled(theme.TextTray, true, theme.Ink)}
	var objects []fyne.CanvasObject
	if of == job.StationRoom {
		t.taped = t.tape()
		for _, r := range []Row{t.taped, t.shapes()} {
			s.rows = append(s.rows, r)
			objects = append(objects, r.Object())
		}
	}
	var under message.ID
	for _, in := range job.At(of) {
		f := field{in: in}
		if in.Under != under {
			if under = in.Under; under != "" {
				f.heading = heading(theme.Word(under))
				objects = append(objects, f.heading)
			}
		}
		if in.Key == job.SetUpsKey {
			t.read = t.readings()
			s.rows = append(s.rows, t.read)
			objects = append(objects, t.read.Object())
		}
		for _, r := range t.rowsOf(in, s) {
			f.rows = append(f.rows, r)
			objects = append(objects, r.Object())
			if in.Things == nil {
				t.helpOf(r, in.Help(), in.Key)
			}
			if in.Key == job.ExitWallKey { // does it lead outside at all?
				ground := t.groundBehind()
				f.rows = append(f.rows, ground)
				objects = append(objects, ground.Object())
			}
		}
		if !in.First {
			f.less = f.rows
		}
		s.rows, s.shown = append(s.rows, f.rows...), append(s.shown, f)
	}
	s.lessButton = control.NewPress(t.keys, "", func() {
		s.less = !s.less
		s.refresh(t.now)
	})
	s.fields = container.New(apart{}, objects...)
	s.scroll = control.NewScroller(container.New(besideBar{}, s.fields))
	s.box = container.New(room{s.place}, t.head(s), s.scroll, s.place.card, t.foot(s))
	return s
}

// head says which station it is.
func (t *Tray) head(s *station) fyne.CanvasObject {
	line := fyne.CanvasObject(s.title)
	if s.number() > 0 {
		of := control.NewText(theme.Word("tray.of", message.No("n", len(job.Stations())))).Styled(theme.TextCaption, false, theme.Caption)
		line = container.NewBorder(nil, nil, nil, of, s.title)
	}
	s.name()
	return line
}

// number is which station of the work it is, from one; 0 where it is none.
func (s *station) number() int {
	for i, of := range job.Stations() {
		if of == s.of {
			return i + 1
		}
	}
	return 0
}

// name writes the heading, which says so where something typed was not taken.
func (s *station) name() {
	name := theme.Word(s.of.ID())
	if n := s.number(); n > 0 {
		name = theme.Word("tray.station", message.No("n", n), message.Name("station", name))
	}
	if len(s.notTaken()) > 0 {
		name = theme.Word("input.group-not-taken", message.Name("group", name))
	}
	if s.title.Text != name {
		s.title.SetText(name)
	}
}

// foot opens the less used and goes on to the next station.
func (t *Tray) foot(s *station) fyne.CanvasObject {
	n := s.number()
	if n == 0 || n == len(job.Stations()) {
		return container.NewHBox(s.lessButton)
	}
	next := job.Stations()[n]
	on := control.NewFilled(t.keys, theme.Word("tray.next", message.Name("station", theme.Word(next.ID()))), func() { t.Open(next) })
	return container.New(control.Ends{Gap: theme.BetweenTwo}, s.lessButton, on)
}

// refresh follows the job.
func (s *station) refresh(j job.Job) {
	for _, r := range s.rows {
		r.Refresh(j)
	}
	n := 0
	for _, f := range s.shown {
		if len(f.less) > 0 && f.in.Uses(&j) {
			n++
		}
		if !s.less {
			for _, r := range f.less {
				r.Object().Hide()
			}
		}
		if f.in.First && f.in.Things != nil {
			n += f.lessEntries(&j)
		}
	}
	for i, f := range s.shown {
		if f.heading != nil {
			visible(f.heading, s.anyUnder(i))
		}
	}
	s.name()
	s.place.follow()
	visible(s.lessButton, n > 0)
	id := message.ID("tray.less-used")
	if s.less {
		id = "tray.less-hide"
	}
	if text := theme.Word(id, message.No("n", n)); s.lessButton.Text != text {
		s.lessButton.Text = text
		s.lessButton.Refresh()
	}
	s.box.Refresh()
}

// anyUnder tells whether any field under the heading of one is there.
func (s *station) anyUnder(i int) bool {
	under := s.shown[i].in.Under
	for _, f := range s.shown[i:] {
		if f.in.Under != under {
			return false
		}
		for _, r := range f.rows {
			if r.There() {
				return true
			}
		}
	}
	return false
}

// lessEntries are how many less used entries the thing that is edited of a list has.
func (f field) lessEntries(j *job.Job) (n int) {
	r := f.rows[0].(*thingsRow)
	for _, e := range r.list.Entries() {
		if e.Less && *r.at < r.list.Count(j) && e.Uses(j, *r.at) {
			n++
		}
	}
	return n
}

// notTaken names the fields of the station that show what was typed and not taken.
func (s *station) notTaken() []string { return notTakenOf(s.rows) }
