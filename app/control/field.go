package control

import (
	"errors"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/unit"
)

// Known is how the number in a field came about.
type Known uint8

// How a number may have come about.
const (
	Given     Known = iota // stated, and free to be moved
	Held                   // stated and fixed: nothing may move it
	WorkedOut              // follows from the rest
	Assumed                // stood in by usual practice
	NotKnown               // not stated; it may have a usual value
)

// Number is what a field asks for.
type Number struct {
	Label string // what is asked, over the field; without one it must be said beside it
	About string // what is asked, for who cannot see; the label where it is empty
	Kind  unit.Kind
	Units unit.System
	// Least and Greatest are what makes sense here, in the unit of the kind.
	Least, Greatest float64
	// Step is what an arrow key changes it by; 0 has arrows change nothing.
	Step float64
	// Optional tells that it may be left empty: it is worked out then, or not known.
	Optional bool
	// Below stands under the field while there is nothing else to say.
	Below string
}

// Shown is what a field shows.
type Shown struct {
	Value float64 // NaN for none
	Known Known
	Usual float64 // what an empty field would be assumed to hold; NaN for nothing
}

// Intents are what a field asks for; any may be nil.
type Intents struct {
	// Preview shows what a number being typed would give; EndPreview no longer.
	Preview    func(v float64)
	EndPreview func()
	// Take makes a number the job's, or says why not. Step does so for an arrow key.
	Take, Step func(v float64) error
	// Clear makes it worked out, or not known, again.
	Clear func() error
	// Confirm makes what is assumed stated; LetGo lets what is held be moved.
	Confirm, LetGo func()
	// Entered is told that Enter took what was typed, or that nothing was.
	Entered func()
	// Paste takes a text that is pasted and is more than one number; it tells whether it was.
	Paste func(text string) (taken bool)
}

// Words are what a field says, in the language of the window.
type Words struct {
	// NotTaken says that what was typed was not taken, and why.
	NotTaken func(typed string, why error) string
	// Which asks which of several readings is meant: "1200 mm or 1.2 mm?".
	Which func(readings []string) string
	// InLarger says that a number that makes no sense in millimetres, or inches, was taken as metres, or feet; InSmaller
	// that one was taken as millimetres, or inches, which it was probably not meant in.
	InLarger, InSmaller func(typed string) string
	// Above says that a number without a sign was taken as above nought, where one below stood.
	Above func(typed string) string
	// Assumed and NotKnown stand under a field that is so; LetGo says what pressing the thick
	// edge does.
	Assumed, NotKnown, LetGo string
	// States call the states for who cannot see.
	States [NotKnown + 1]string
}

// Field is the one field for a number: it knows its unit, shows what is typed at once, and takes
// it when it is left.
type Field struct {
	widget.BaseWidget
	Number
	Intents
	words Words
	keys  *Keys
	entry *fieldEntry
	unit  *Text
	shown Shown
	text  string // of what is shown
	// refused is what was not taken; it stays until a number is.
	refused string
	// asked are the readings of what was typed; meant is the one that Enter takes.
	asked   []unit.Reading
	meant   int
	setting bool
	picks   []*whichOf // of the readings
	// told is how what was typed last was understood where it does not say so itself, offered what it was probably meant as
	// and can be pressed; both stay while the number does.
	told    string
	offered []unit.Reading
}

// NewField makes a field.
func NewField(keys *Keys, n Number, words Words, i Intents) *Field {
	if keys == nil {
		keys = NewKeys()
	}
	f := &Field{Number: n, Intents: i, words: words, keys: keys, shown: Shown{math.NaN(), NotKnown, math.NaN()}}
	f.ExtendBaseWidget(f)
	f.unit = NewText(f.symbol()).Styled(theme.TextSecond, false, theme.Caption)
	f.entry = newFieldEntry(f)
	return f
}

// Inside is what is typed on, and what picks a reading of what was typed.
func (f *Field) Inside() []fyne.CanvasObject {
	out := []fyne.CanvasObject{f.entry}
	for _, p := range f.picks {
		out = append(out, p)
	}
	return out
}

// Focus has the keys go to the field.
func (f *Field) Focus() { FocusOn(f.entry) }

// Asks tells whether the field asks which reading of what was typed is meant.
func (f *Field) Asks() bool { return len(f.asked) > 0 }

// Told is how the field says it understood what was typed last; nothing where that says so itself.
func (f *Field) Told() string { return f.told }

// Offer is something that can be pressed.
type Offer struct {
	Text string
	Do   func()
}

// Offered is what a number that was taken was probably meant as: each takes that.
func (f *Field) Offered() (out []Offer) {
	for _, r := range f.offered {
		out = append(out, Offer{r.Text, func() { f.take(r.Value, f.Take) }})
	}
	return out
}

// Refused is what the field says about what it did not take; nothing where it took it.
func (f *Field) Refused() string { return f.refused }

// Text is what stands in it.
func (f *Field) Text() string { return f.entry.Text }

// AccessibilityLabel says what is asked, what stands there and how it came about.
func (f *Field) AccessibilityLabel() string {
	about := f.About
	if about == "" {
		about = f.Label
	}
	value := strings.TrimSpace(f.entry.Text + " " + f.symbol())
	return strings.Join(slicesOf(about, value, f.words.States[f.shown.Known], f.refused, f.told), ", ")
}

// slicesOf are the texts that say something.
func slicesOf(texts ...string) (out []string) {
	for _, t := range texts {
		if t != "" {
			out = append(out, t)
		}
	}
	return out
}

// AccessibilityRole is the nearest there is.
func (f *Field) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// Set follows the job: it does not write over what is being typed, nor wipe what was refused
// while the number stands.
func (f *Field) Set(s Shown) {
	same := s.Known == f.shown.Known && alike(s.Value, f.shown.Value) && alike(s.Usual, f.shown.Usual)
	f.shown = s
	if f.entry.changed() && (f.entry.has || len(f.asked) > 0) {
		return
	}
	if !same {
		f.refused = ""
		f.say("", nil)
	}
	f.restore()
}

// SetUnits has the field show and read another system.
func (f *Field) SetUnits(u unit.System) {
	if u != f.Units {
		f.Units = u
		f.say("", nil)
		f.restore()
	}
}

func alike(a, b float64) bool { return a == b || a != a && b != b }

// restore shows the job's number.
func (f *Field) restore() {
	f.setting = true
	defer func() { f.setting = false }()
	f.asked = nil
	f.text = f.written(f.shown.Value)
	f.entry.SetPlaceHolder(f.written(f.shown.Usual))
	if f.entry.Text != f.text {
		f.entry.SetText(f.text)
		f.entry.replaces()
	}
	f.Refresh()
}

// written is a number as it stands in the field, without the unit that stands beside it.
func (f *Field) written(v float64) string {
	if v != v {
		return ""
	}
	return strings.TrimSuffix(strings.TrimSuffix(unit.Editable(v, f.Kind, f.Units), f.symbol()), " ")
}

// symbol is the unit at the right; none where it stands in the text, as an inch's marks do.
func (f *Field) symbol() string {
	if f.Kind.IsLength() && f.Units == unit.Imperial {
		return ""
	}
	return unit.Symbol(f.Kind, f.Units)
}

// unitShown is the unit as it stands in the field: none beside nothing.
func (f *Field) unitShown() string {
	if f.entry.Text == "" && f.entry.PlaceHolder == "" && !f.entry.has {
		return ""
	}
	return f.symbol()
}

// read is the number that is typed, and whether it stands for metres or feet.
func (f *Field) read() (v float64, larger bool, err error) {
	return unit.Understand(f.entry.Text, f.Kind, f.Units, f.Least, f.Greatest)
}

// typed shows what the number typed so far would give.
func (f *Field) typed(string) {
	if f.setting {
		return
	}
	f.asked, f.meant = nil, 0
	v, _, err := f.read()
	which := new(unit.Ambiguous)
	switch {
	case errors.As(err, &which):
		f.asked = which.Readings
		f.preview(f.asked[0].Value)
	case err != nil:
		f.endPreview()
	default:
		f.preview(v)
	}
	f.Refresh()
}

func (f *Field) preview(v float64) {
	if f.Preview != nil {
		f.Preview(v)
	}
}

func (f *Field) endPreview() {
	if f.EndPreview != nil {
		f.EndPreview()
	}
}

// enter takes what is typed; of two readings the one that is meant. What is assumed is confirmed.
func (f *Field) enter() {
	defer func() {
		if f.Entered != nil && f.refused == "" && len(f.asked) == 0 {
			f.Entered()
		}
	}()
	switch {
	case len(f.asked) > 0:
		f.take(f.asked[f.meant].Value, f.Take)
	case !f.entry.changed() && f.shown.Known == Assumed && f.Confirm != nil:
		f.Confirm()
	case !f.entry.changed() && f.entry.Text == "" && f.shown.Usual == f.shown.Usual:
		f.take(f.shown.Usual, f.Take)
	default:
		f.leave()
	}
}

// leave takes what is typed. Where it is not clear what was meant, the question stays.
func (f *Field) leave() {
	if !f.entry.changed() {
		f.endPreview()
		return
	}
	if len(f.asked) > 0 {
		f.endPreview() // of one of the readings: which is meant is open
		return
	}
	if f.entry.Text == "" && f.Optional {
		f.clear()
		return
	}
	v, larger, err := f.read()
	if err != nil {
		f.refuse(err)
		return
	}
	typed, before := f.entry.Text, f.shown.Value
	if before != before {
		before = f.shown.Usual
	}
	if f.take(v, f.Take); f.refused != "" {
		return
	}
	if longer, slip := unit.Larger(typed, f.Kind, f.Units, f.Least, f.Greatest, v, before); larger {
		f.say(f.words.InLarger(typed), nil)
	} else if slip {
		f.say(f.words.InSmaller(typed), []unit.Reading{longer})
	} else if f.Kind == unit.Length && before < 0 && v > 0 && !strings.HasPrefix(strings.TrimSpace(typed), "+") {
		f.say(f.words.Above(typed), []unit.Reading{{Value: -v, Text: unit.Editable(-v, f.Kind, f.Units)}})
	}
	f.Refresh()
}

// say has the field tell how what was typed was understood, and what else can be pressed.
func (f *Field) say(told string, offered []unit.Reading) {
	if f.told, f.offered = told, offered; told != "" {
		f.keys.told = f
	}
}

// choices are the readings of what was typed that can be pressed.
func (f *Field) choices() []unit.Reading {
	if len(f.asked) > 0 {
		return f.asked
	}
	if f.refused == "" && !f.entry.changed() {
		return f.offered
	}
	return nil
}

// take asks for a number, and says why where it is not given.
func (f *Field) take(v float64, by func(v float64) error) {
	f.asked = nil
	f.say("", nil)
	f.keys.takes(f)
	if by == nil {
		f.restore()
		return
	}
	typed := f.entry.Text
	f.text = typed // what is shown meanwhile is not what is being typed
	if err := by(v); err != nil {
		f.entry.SetText(typed)
		f.refuse(err)
		return
	}
	f.refused = ""
	f.restore()
	f.entry.replaces()
}

// clear empties the field.
func (f *Field) clear() {
	f.text = ""
	if f.Clear == nil {
		f.restore()
		return
	}
	if err := f.Clear(); err != nil {
		f.refuse(err)
		return
	}
	f.refused = ""
	f.restore()
}

// refuse brings the number before back and says what was not taken.
func (f *Field) refuse(why error) {
	f.endPreview()
	f.refused = f.words.NotTaken(shortened(f.entry.Text), why)
	f.restore()
}

// shortened is a text no longer than a message can show.
func shortened(s string) string {
	const most = 24
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

// giveUp brings the number before back; it tells whether there was anything to give up.
func (f *Field) giveUp() bool {
	if !f.entry.changed() && len(f.asked) == 0 {
		return false
	}
	f.endPreview()
	f.restore()
	return true
}

// stepBy changes the number, or which of two readings is meant.
func (f *Field) stepBy(steps float64) {
	if len(f.asked) > 0 {
		n := len(f.asked)
		f.meant = ((f.meant-int(math.Copysign(1, steps)))%n + n) % n
		f.preview(f.asked[f.meant].Value)
		f.Refresh()
		return
	}
	if f.Number.Step == 0 {
		return
	}
	v := f.shown.Value
	if f.entry.changed() {
		typed, _, err := f.read()
		if err != nil {
			f.refuse(err)
			return
		}
		v = typed
	}
	if v != v {
		v = f.shown.Usual
	}
	if v != v {
		v = max(0, f.Least)
	}
	by := f.Intents.Step
	if by == nil {
		by = f.Take
	}
	f.take(min(max(v+steps*f.stepSize(), f.Least), f.Greatest), by)
}

// sixteenthMM is a sixteenth of an inch: what an arrow key steps by in inches.
const sixteenthMM = 25.4 / 16

func (f *Field) stepSize() float64 {
	if f.Units == unit.Imperial && f.Kind.IsLength() {
		return sixteenthMM
	}
	return f.Number.Step
}

// letGo lets what is held be moved again.
func (f *Field) letGo() {
	if f.shown.Known == Held && f.LetGo != nil {
		f.LetGo()
	}
}

// theme of the field.
func (f *Field) theme() *theme.Theme { return theme.Of(f) }
