package unit

import (
	"math"
	"slices"
	"sort"
	"strings"

	"underfall/geometry/message"
)

// Reading is one meaning of what was typed. Text says the same so that it can
// be read in one way only; of a list it is the whole list and Value its first
// number.
type Reading struct {
	Value float64
	Text  string
}

// Ambiguous is the error for text with more than one sensible meaning: the
// user must choose. The greatest reading comes first; in a list, the one with
// most numbers.
type Ambiguous struct {
	Typed    string
	Readings []Reading
}

func (a *Ambiguous) Error() string { return a.Message().String() }

// Message says what the text can be, and that one must be chosen.
func (a *Ambiguous) Message() message.Message {
	list := false
	for _, r := range a.Readings {
		list = list || strings.Contains(r.Text, ";")
	}
	var readings message.List
	for _, r := range a.Readings {
		if list {
			readings.Items = append(readings.Items, message.Of("reading.quoted", message.Name("text", r.Text)))
		} else {
			readings.Items = append(readings.Items, message.Text(r.Text))
		}
	}
	readings.Or = true
	return message.Of("reading.ambiguous", message.Name("typed", a.Typed), message.Arg{Name: "readings", Value: readings})
}

// Outside is the error for a number that makes no sense where it is typed.
type Outside struct {
	what message.Message
	// Least and Greatest are what would, in the unit of the kind.
	Least, Greatest float64
}

func (o *Outside) Error() string { return o.what.String() }

// Message says what was read, and what it must lie between.
func (o *Outside) Message() message.Message { return o.what }

// eitherMark stands for: each numeral by itself has one reading.
const eitherMark = 0

// manner is one way to read a text throughout.
type manner struct {
	// decimal is the decimal mark.
	decimal byte
	// joins makes the hyphens of 5'-3" and 4-1/2" in a sum join, not subtract.
	joins bool
	// second takes the less plain meaning where there are two: a bare
	// fraction in metric as inches, 2 m 5 as 2.5 m, a bare small fall as
	// percent.
	second bool
}

// Parse reads text as a number of a kind. A bare number is in the system's own unit:
// millimetres or inches, l/min or US gallons a minute; a bare fall is one in
// so many from 10 on and rise over run below 0.5. Text that begins with = is
// worked out. The error says to people what to type; it is an *Ambiguous when more than
// one meaning makes sense.
func Parse(text string, kind Kind, s System) (float64, error) {
	return ParseWithin(text, kind, s, math.Inf(-1), math.Inf(1))
}

// ParseWithin reads text as Parse does, and takes only what lies between least
// and greatest, in the unit of the kind. Where text has several meanings
// that leaves the one that makes sense.
func ParseWithin(text string, kind Kind, s System, least, greatest float64) (float64, error) {
	v, _, err := Understand(text, kind, s, least, greatest)
	return v, err
}

// Understand is ParseWithin, and tells whether a bare number was taken as metres or feet, as it makes no sense in millimetres or
// inches: who typed it should hear so.
func Understand(text string, kind Kind, s System, least, greatest float64) (v float64, larger bool, err error) {
	if strings.TrimSpace(text) == "" {
		return 0, false, message.Fail("reading.empty", examples(kind, s))
	}
	all, err := readAll(text, kind, s)
	if err != nil {
		return 0, false, err
	}
	sound := within(all, kind, s, least, greatest)
	if len(sound) == 0 {
		sound, larger = inLarger(text, kind, s, least, greatest), true
	}
	switch len(sound) {
	case 0:
		return 0, false, outside(all, kind, s, least, greatest)
	case 1:
		return sound[0].Value, larger, nil
	}
	return 0, false, &Ambiguous{strings.TrimSpace(text), sound}
}

// readAll gives every meaning of text, or an error that says what to type.
func readAll(text string, kind Kind, s System) ([]Reading, error) {
	tokens, f := scan(text)
	var all []Reading
	if f == nil {
		all, f = readingsOf(tokens, kind, s)
	}
	if f != nil {
		wrong := f.what
		if other, is := otherKind(tokens, kind, s); is {
			wrong = message.Of(other)
		}
		return nil, message.Fail("reading.example", message.In("wrong", wrong), examples(kind, s))
	}
	return all, nil
}

// otherKind says what tokens are that are no number of a kind, where they are one of another by their unit; false where
// they are none, or more than one.
func otherKind(tokens []token, kind Kind, s System) (is message.ID, ok bool) {
	if len(tokens) == 0 || tokens[0].is("=") || slices.ContainsFunc(tokens, func(t token) bool { return t.is("%") }) {
		return "", false
	}
	for _, o := range [...]struct {
		kind Kind
		is   message.ID
	}{
		{Length, "reading.is-length"}, {Flow, "reading.is-flow"}, {Angle, "reading.is-angle"}, {Slope, "reading.is-fall"},
		{Time, "reading.is-time"}, {Speed, "reading.is-speed"},
	} {
		if o.kind == kind || o.kind == Length && kind == Along || kind == Slope && (o.kind == Length || o.kind == Angle) {
			continue // of a fall more is said by what is wrong with it
		}
		if _, f := readingsOf(tokens, o.kind, s); f == nil {
			return o.is, true
		}
	}
	return "", false
}

// shorten keeps messages readable.
func shorten(text string) string {
	r := []rune(strings.TrimSpace(text))
	if len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return string(r)
}

// readingsOf are the meanings of tokens with either decimal mark.
func readingsOf(tokens []token, kind Kind, s System) ([]Reading, *fault) {
	all, f := readingsWith(tokens, kind, s, '.', ',')
	if f != nil {
		// A point here and a comma there: 12,5 + 2.5.
		if either, bad := readingsWith(tokens, kind, s, eitherMark); bad == nil {
			return either, nil
		}
	}
	return all, f
}

// readingsWith are the different meanings of tokens with the given decimal
// marks, the greatest first; when there is none, the fault is the one that
// got farthest.
func readingsWith(tokens []token, kind Kind, s System, marks ...byte) ([]Reading, *fault) {
	var all []Reading
	var worst *fault
	for _, m := range manners(tokens, marks) {
		r := reader{tokens: tokens, kind: kind, s: s, manner: m}
		one, f := r.read()
		if f != nil {
			if worst == nil || f.at > worst.at {
				worst = f
			}
			continue
		}
		known := false
		for _, o := range all {
			known = known || same(o.Value, one.Value)
		}
		if !known {
			all = append(all, one)
		}
	}
	if len(all) == 0 {
		return nil, worst
	}
	sort.SliceStable(all, func(i, k int) bool { return all[i].Value > all[k].Value })
	return all, nil
}

// manners are the ways that can make a difference to tokens.
func manners(tokens []token, marks []byte) []manner {
	marked := false
	for _, t := range tokens {
		marked = marked || t.kind == numeral && strings.ContainsAny(t.text, ".,")
	}
	if !marked {
		marks = marks[:1]
	}
	var out []manner
	for _, decimal := range marks {
		out = append(out, manner{decimal: decimal}, manner{decimal: decimal, second: true})
		if tokens[0].is("=") {
			out = append(out, manner{decimal: decimal, joins: true}, manner{decimal: decimal, joins: true, second: true})
		}
	}
	return out
}

// roundingShare is what two ways to work out a number may differ by: a thousand
// times the steps of float64.
const roundingShare = 1e-12

// same tells whether two values differ by rounding alone.
func same(a, b float64) bool {
	return a == b || math.Abs(a-b) <= roundingShare*math.Max(math.Abs(a), math.Abs(b))
}

// limits are the bounds that hold: the caller's and what makes sense at all.
func limits(kind Kind, least, most float64) (float64, float64) {
	low, high := -greatest(kind), greatest(kind)
	if least > low {
		low = least
	}
	if most < high {
		high = most
	}
	return low, high
}

// within keeps the readings that make sense. What is shown for a limit itself
// counts as the limit, though it may be rounded beyond it.
func within(all []Reading, kind Kind, s System, least, most float64) []Reading {
	low, high := limits(kind, least, most)
	var sound []Reading
	for _, r := range all {
		switch {
		case r.Value >= low && r.Value <= high:
		case r.Value < low && shows(low, r.Value, kind, s):
			r.Value = low
		case r.Value > high && shows(high, r.Value, kind, s):
			r.Value = high
		default:
			continue
		}
		r.Value += 0 // no negative nought
		sound = append(sound, r)
	}
	return sound
}

// shows tells whether what is shown for a limit, in a field or in a message,
// says v; never the thousandfold, which such text may say as well.
func shows(limit, v float64, kind Kind, s System) bool {
	for _, text := range []string{Editable(limit, kind, s), Format(limit, kind, s)} {
		all, err := readAll(text, kind, s)
		for _, r := range all {
			if err == nil && r.Value == v && math.Abs(v-limit) <= math.Abs(limit) {
				return true
			}
		}
	}
	return false
}

// outside is the error for text whose every reading lies beyond the limits.
func outside(all []Reading, kind Kind, s System, least, most float64) error {
	low, high := limits(kind, least, most)
	is := message.List{Or: true}
	for _, r := range all {
		if math.IsNaN(r.Value) || math.Abs(r.Value) > 1e15 {
			return message.Fail("reading.far-too-much", examples(kind, s))
		}
		is.Items = append(is.Items, message.Text(r.Text))
	}
	return &Outside{message.Of("reading.outside", message.Arg{Name: "is", Value: is}, message.Arg{Name: "least", Value: Value(low, kind)},
		message.Arg{Name: "greatest", Value: Value(high, kind)}), low, high}
}
