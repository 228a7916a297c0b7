package job

import (
	"slices"
	"strings"
	"sync"

	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// Station is one of the stations of the work, at which what belongs together is stated.
type Station string

// The stations, in the order of the work; HowExact is none of them: what may be off of all of
// them is stated in one place.
const (
	StationRoom   Station = "room"
	StationFloor  Station = "floor"
	StationShower Station = "shower"
	StationDrain  Station = "drain"
	StationWayOut Station = "way-out"
	StationFinish Station = "finish"
	StationSite   Station = "on-site"
	HowExact      Station = "how-exact"
)

// Stations are those of the work, in its order.
func Stations() []Station {
	return []Station{StationRoom, StationFloor, StationShower, StationDrain, StationWayOut, StationFinish, StationSite}
}

// ID is of the station's name.
func (s Station) ID() message.ID { return message.ID("station." + string(s)) }

// About is the id of a line that says what is stated there.
func (s Station) About() message.ID { return message.ID("station." + string(s) + ".about") }

// Input is one thing that a job states: where it is in its file, at which station of the work
// it is stated, and what is needed to read and to change it. The one row serves its field in
// the window, its place in messages and its tests. Exactly one of the fields from Number on
// is there, and says of what kind it is.
type Input struct {
	Key     string // path in the job's file
	Station Station
	// First tells that it is shown at once; others are less used.
	First bool
	// Under is the id of a heading it stands under, with the others that follow it; empty for none.
	Under message.ID
	// uses tells whether it can matter for a job; nil where it does for every one.
	uses func(*Job) bool

	Number  *Parameter
	Maybe   *Optional
	Choice  *Choosing
	Flag    func(*Job) *bool
	Wall    func(*Job) *int // one of the room's walls, by its index
	Things  *List
	Numbers *Numbers
	Table   *Table
}

// Optional is a length that may be absent.
type Optional struct {
	Kind            unit.Kind
	Least, Greatest float64
	// At is the length, ok is false where it is absent.
	At  func(*Job) (mm float64, ok bool)
	set func(*Job, *float64)
}

// Set changes the length; nil takes it away.
func (o Optional) Set(j *Job, mm *float64) { o.set(j, mm) }

// Option is one value to choose, as it stands in a file, with its word.
type Option struct {
	Value string
	Word  message.Message
}

// Choosing is one of a few values.
type Choosing struct {
	// Options are those there are for a job, with the parts on a shelf.
	Options func(*Job, *part.Shelf) []Option
	At      func(*Job) string
	// Parts are the parts behind the options, by their ids; nil where it is no choice of a part.
	Parts func(*Job, *part.Shelf) []part.Part
	set   func(*Job, string)
}

// Set makes a value the job's and nothing else; what goes along with it is the edit's to do.
// A part is chosen by its edit alone.
func (c Choosing) Set(j *Job, value string) {
	if c.set != nil {
		c.set(j, value)
	}
}

// Uses tells whether the input can matter for a job.
func (in Input) Uses(j *Job) bool {
	if in.Number != nil {
		return in.Number.Uses(*j)
	}
	return in.uses == nil || in.uses(j)
}

// Label is the id of the input's name, which its field has on screen.
func (in Input) Label() message.ID {
	if in.Things != nil {
		return in.Things.Name()
	}
	return message.ID("parameter." + in.Key)
}

// Help is the id of what there is to know of it.
func (in Input) Help() message.ID {
	if in.Things != nil {
		return message.ID("item." + in.Key + ".help")
	}
	return message.ID("parameter." + in.Key + ".help")
}

// Message says which input it is, with its station.
func (in Input) Message() message.Message {
	return message.Of("place.parameter", message.In("station", message.Of(in.Station.ID())), message.In("parameter", message.Of(in.Label())))
}

// Inputs is the table of all inputs of a job, in the order of the work; it is not to be changed.
func Inputs() []Input { return inputs() }

// inputs are the same for every job: made once.
var inputs = sync.OnceValue(func() []Input {
	return slices.Concat(roomInputs(), floorInputs(), showerInputs(), drainInputs(), wayOutInputs(), finishInputs(), siteInputs(),
		exactInputs())
})

// At are the inputs of a station.
func At(s Station) []Input {
	all := inputs()
	from := slices.IndexFunc(all, func(in Input) bool { return in.Station == s })
	if from < 0 {
		return nil
	}
	to := from
	for to < len(all) && all[to].Station == s {
		to++
	}
	return all[from:to:to]
}

// FindInput is the input of a key.
func FindInput(key string) (Input, bool) {
	for _, in := range inputs() {
		if in.Key == key {
			return in, true
		}
	}
	return Input{}, false
}

// InputOf is the input that a path in a job's file leads to or into; ok is false where it leads
// to none.
func InputOf(path string) (in Input, ok bool) {
	longest := -1
	for _, i := range inputs() {
		if rest, under := strings.CutPrefix(path, i.Key); under && len(i.Key) > longest && (rest == "" || rest[0] == '.' || rest[0] == '[') {
			in, longest = i, len(i.Key)
		}
	}
	return in, longest >= 0
}

// StationOf is the station at which a path in a job's file is stated, or most of what lies under
// it; ok is false where it is stated at none.
func StationOf(path string) (s Station, ok bool) {
	if in, ok := InputOf(path); ok {
		return in.Station, true
	}
	for _, in := range inputs() {
		if strings.HasPrefix(in.Key, path+".") {
			return in.Station, true
		}
	}
	return "", false
}

// rows are inputs at a station.
func rows(s Station, first bool, all ...Input) []Input {
	for i := range all {
		all[i].Station, all[i].First = s, first
		if p := all[i].Number; p != nil {
			p.Station = s
		}
	}
	return all
}

// under has inputs stand under a heading.
func under(heading message.ID, all ...Input) []Input {
	for i := range all {
		all[i].Under = heading
	}
	return all
}

// when is the input, to matter only where something is so.
func (in Input) when(uses func(*Job) bool) Input {
	in.uses = uses
	return in
}

// figure is an input for a single number.
func figure(key string, kind unit.Kind, least, greatest, step float64, uses func(Job) bool, field func(*Job) *float64) Input {
	return Input{Key: key, Number: &Parameter{Key: key, Kind: kind, Least: least, Greatest: greatest, Step: step, uses: uses, field: field}}
}

// perhaps is an input for a length that may be absent.
func perhaps(key string, kind unit.Kind, least, greatest float64, field func(*Job) **float64) Input {
	return Input{Key: key, Maybe: &Optional{Kind: kind, Least: least, Greatest: greatest,
		At: func(j *Job) (float64, bool) {
			if mm := *field(j); mm != nil {
				return *mm, true
			}
			return 0, false
		},
		set: func(j *Job, mm *float64) { *field(j) = clonePointer(mm) }}}
}

// pick is an input for a value of one of the job's lists.
func pick[T ~string](key string, e Enum[T], field func(*Job) *T) Input {
	return selection(key, e.Options(), func(j *Job) string { return string(*field(j)) }, func(j *Job, v string) { *field(j) = T(v) })
}

// Options are the values of the list with their words.
func (e Enum[T]) Options() []Option {
	out := make([]Option, len(e.Choices))
	for i, c := range e.Choices {
		out[i] = Option{string(c.Value), message.Of(c.Word())}
	}
	return out
}

// selection is an input for a choice that is the same for every job.
func selection(key string, options []Option, at func(*Job) string, set func(*Job, string)) Input {
	return Input{Key: key, Choice: &Choosing{Options: func(*Job, *part.Shelf) []Option { return options }, At: at, set: set}}
}

// flag is an input that is so or not.
func flag(key string, field func(*Job) *bool) Input { return Input{Key: key, Flag: field} }

// wallOf is an input for one of the room's walls.
func wallOf(key string, field func(*Job) *int) Input { return Input{Key: key, Wall: field} }

// things is the input for a list of things.
func things(l List) Input { return Input{Key: l.Key, Things: &l} }

// shelved is an input for a part from the shelf, sold in the job's country, or the one that is
// chosen wherever it is sold. Of are the parts that go with a job; none is what no part is called.
func shelved[P part.Part](key string, none message.ID, of func(*Job, *part.Shelf) []P, chosen func(*Job) *P) Input {
	offered := func(j *Job, shelf *part.Shelf) []part.Part {
		var out []part.Part
		for _, p := range part.SoldIn(of(j, shelf), j.Region) {
			out = append(out, p)
		}
		c := chosen(j)
		if c == nil || slices.ContainsFunc(out, func(p part.Part) bool { return p.Of().ID == (*c).Of().ID }) {
			return out
		}
		return append(out, *c)
	}
	return Input{Key: key, Choice: &Choosing{
		Parts: offered,
		Options: func(j *Job, shelf *part.Shelf) []Option {
			var out []Option
			for _, p := range offered(j, shelf) {
				out = append(out, Option{p.Of().ID, part.Name(p)})
			}
			return append(out, Option{"", message.Of(none)})
		},
		At: func(j *Job) string {
			if c := chosen(j); c != nil {
				return (*c).Of().ID
			}
			return ""
		}}}
}
