package job

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// List is a list of things in a job that are added, changed and taken away one by one:
// windows, panes, layers. The one row of Lists serves its fields in the window, its edits,
// its check, its places in messages and its part in the random tests. A thing of which
// there is at most one is a list of one.
type List struct {
	Key  string // path in the job's file
	Most int    // how many there may be
	// Fixed tells that there are as many as something else makes them: none is added or taken away by itself.
	Fixed bool
	// Count is how many there are in a job.
	Count   func(*Job) int
	entries []Entry
	add     func(*Job)
	remove  func(*Job, int)
	// named is what a thing is called in a job, beside its number; nil for its number.
	named func(*Job, int) message.Message
	// said is what is to be said of all of them together; nil for nothing.
	said func(*Job) []message.Message
}

// Entry is one statement about a thing of a list: exactly one of the fields is there.
type Entry struct {
	Key    string // name in the file
	Number *NumberEntry
	Choice *ChoiceEntry
	Flag   func(*Job, int) *bool
	Wall   func(*Job, int) *int // which wall, by its index
	Text   *TextEntry
	Corner func(*Job, int) *int // which corner, by the index of the wall that starts there
	// Less tells that it is less used, Explained that it has a help of its own.
	Less, Explained bool
	// uses tells whether the thing needs it; nil for always.
	uses func(*Job, int) bool
}

// NumberEntry is a number with the values that make sense at all.
type NumberEntry struct {
	Kind                  unit.Kind
	Least, Greatest, Step float64
	// Optional is set for one that may be absent; At is then nil for an absent one.
	Optional bool
	At       func(*Job, int) *float64
	set      func(*Job, int, *float64)
}

// Set changes the number; nil takes an optional one away. One that follows from others is
// changed by its edit alone.
func (n NumberEntry) Set(j *Job, i int, mm *float64) {
	if !n.Follows() {
		n.set(j, i, mm)
	}
}

// Follows tells that the number stands in no file but follows from what does.
func (n NumberEntry) Follows() bool { return n.set == nil }

// TextEntry is a name that people give.
type TextEntry struct {
	MostRunes int // how long it may be
	At        func(*Job, int) *string
}

// ChoiceEntry is one of a few words.
type ChoiceEntry struct {
	Values []string
	Words  []message.ID
	At     func(*Job, int) string
	Set    func(*Job, int, string)
}

// Uses tells whether the thing of an index needs the entry.
func (e Entry) Uses(j *Job, i int) bool { return e.uses == nil || e.uses(j, i) }

// Entries are what is stated of each thing.
func (l List) Entries() []Entry { return l.entries }

// Label is the id of an entry's name, which its field has on screen.
func (l List) Label(e Entry) message.ID { return message.ID("item." + l.Key + "." + e.Key) }

// Help is the id of what there is to know of an entry: its own where it has one, else that of the list.
func (l List) Help(e Entry) message.ID {
	if e.Explained {
		return message.ID("item." + l.Key + "." + e.Key + ".help")
	}
	return message.ID("item." + l.Key + ".help")
}

// Name is the id of what one thing of the list is called; it takes n, its number.
func (l List) Name() message.ID {
	if id, ok := places()[l.Key+"[#]"]; ok {
		return id
	}
	return message.ID("item." + l.Key)
}

// Title is the id of what all things of the list are called together; ok is false where they have no name but each
// its own.
func (l List) Title() (id message.ID, ok bool) {
	id, ok = places()[l.Key]
	return id, ok && l.Most > 1
}

// AddLabel is the id of what the button that adds one says, and its edit.
func (l List) AddLabel() message.ID { return message.ID("item." + l.Key + ".add") }

// RemoveLabel is the id of what the button that takes one away says, and its edit.
func (l List) RemoveLabel() message.ID { return message.ID("item." + l.Key + ".remove") }

// Item names a thing of the list in a job; a wall by its letter, or in none by its number.
func (l List) Item(j *Job, i int) message.Message {
	if l.named != nil && j != nil && i < l.Count(j) {
		return l.named(j, i)
	}
	return message.Of(l.Name(), whichOf(l.Key, i, j))
}

// Said is what is to be said of all things of the list together, as that they do not agree; nothing of most.
func (l List) Said(j *Job) []message.Message {
	if l.said == nil || l.Count(j) == 0 {
		return nil
	}
	return l.said(j)
}

// Message says which entry of which thing it is: in words of its own where the place has
// such.
func (l List) Message(j *Job, i int, e Entry) message.Message {
	if id, own := l.ownWords(e); own {
		return message.Of(id, whichOf(l.Key, i, j))
	}
	return message.Of("place.item-entry", message.In("item", l.Item(j, i)), message.In("entry", l.called(j, i, e)))
}

// called is what an entry of a thing is called in a job; none of those in no job.
func (l List) called(j *Job, i int, e Entry) message.Message {
	if j != nil {
		if m, ok := j.Named(l.Path(i, e)); ok {
			return m
		}
	}
	return message.Of(l.Label(e))
}

// ownWords are the words that the place of an entry has of its own; false without such.
func (l List) ownWords(e Entry) (id message.ID, own bool) {
	id, own = places()[l.Key+"[#]."+e.Key]
	return id, own
}

// Full tells that a job can have no more of it.
func (l List) Full(j *Job) bool { return l.Fixed || l.Count(j) >= l.Most }

// Add puts a usual thing at the list's end; nothing when it is full.
func (l List) Add(j *Job) {
	if !l.Full(j) {
		l.add(j)
	}
}

// Remove takes a thing away; nothing when there is no such thing.
func (l List) Remove(j *Job, i int) {
	if !l.Fixed && i >= 0 && i < l.Count(j) {
		l.remove(j, i)
		j.WithoutItem(l.Key, i)
		j.KeepStandings()
	}
}

// listed makes a list of a slice of the job. Usual is what is added.
func listed[T any](
	key string, most int, of func(*Job) *[]T, usual func(*Job) T, entries ...func(at func(*Job, int) *T) Entry,
) List {
	at := func(j *Job, i int) *T { return &(*of(j))[i] }
	return List{Key: key, Most: most, entries: made(entries, at),
		Count: func(j *Job) int { return len(*of(j)) },
		add:   func(j *Job) { s := of(j); *s = append(*s, usual(j)) },
		remove: func(j *Job, i int) {
			s := of(j)
			if len(*s) == 1 {
				*s = nil
				return
			}
			*s = append((*s)[:i:i], (*s)[i+1:]...)
		}}
}

// single makes a list of a thing that a job has or has not.
func single[T any](key string, of func(*Job) **T, usual func(*Job) T, entries ...func(at func(*Job, int) *T) Entry) List {
	return List{Key: key, Most: 1, entries: made(entries, func(j *Job, _ int) *T { return *of(j) }),
		Count: func(j *Job) int {
			if *of(j) == nil {
				return 0
			}
			return 1
		},
		add: func(j *Job) {
			v := usual(j)
			*of(j) = &v
		},
		remove: func(j *Job, _ int) { *of(j) = nil }}
}

// made are the entries of the things at a place of a job.
func made[T any](entries []func(func(*Job, int) *T) Entry, at func(*Job, int) *T) []Entry {
	out := make([]Entry, len(entries))
	for i, e := range entries {
		out[i] = e(at)
	}
	return out
}

// removing is the list with something else to be put right before a thing is taken away.
func (l List) removing(before func(*Job, int)) List {
	remove := l.remove
	l.remove = func(j *Job, i int) {
		before(j, i)
		remove(j, i)
	}
	return l
}

// number is an entry for a number that is always there.
func number[T any](key string, kind unit.Kind, least, greatest, step float64, field func(*T) *float64) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		f := func(j *Job, i int) *float64 { return field(at(j, i)) }
		return Entry{Key: key, Number: &NumberEntry{Kind: kind, Least: least, Greatest: greatest, Step: step, At: f,
			set: func(j *Job, i int, v *float64) {
				if v != nil {
					*f(j, i) = *v
				}
			}}}
	}
}

// length is an entry for a length in whole millimetres.
func length[T any](key string, least, greatest, step float64, field func(*T) *float64) func(func(*Job, int) *T) Entry {
	return number(key, unit.Length, least, greatest, step, field)
}

// along is an entry for a length along the floor or a wall in whole millimetres.
func along[T any](key string, least, greatest, step float64, field func(*T) *float64) func(func(*Job, int) *T) Entry {
	return number(key, unit.Along, least, greatest, step, field)
}

// maybe is an entry for a length that may be absent.
func maybe[T any](key string, kind unit.Kind, least, greatest, step float64, field func(*T) **float64) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		return Entry{Key: key, Number: &NumberEntry{Kind: kind, Least: least, Greatest: greatest, Step: step, Optional: true,
			At: func(j *Job, i int) *float64 { return *field(at(j, i)) },
			set: func(j *Job, i int, v *float64) {
				p := field(at(j, i))
				if *p = nil; v != nil {
					x := *v
					*p = &x
				}
			}}}
	}
}

// placeX and placeY are the entries for a point in plan, at in the file.
func placeX[T any](field func(*T) *plan.Point) func(func(*Job, int) *T) Entry {
	return along("at[0]", -farthestMM, farthestMM, 10, func(t *T) *float64 { return &field(t)[0] })
}

func placeY[T any](field func(*T) *plan.Point) func(func(*Job, int) *T) Entry {
	return along("at[1]", -farthestMM, farthestMM, 10, func(t *T) *float64 { return &field(t)[1] })
}

// choose is an entry for a value of one of the job's lists of words.
func choose[T any, V ~string](key string, e Enum[V], field func(*T) *V) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		return Entry{Key: key, Choice: &ChoiceEntry{Values: e.Values(), Words: e.words(),
			At:  func(j *Job, i int) string { return string(*field(at(j, i))) },
			Set: func(j *Job, i int, v string) { *field(at(j, i)) = V(v) }}}
	}
}

// called is an entry for a name that people give.
func called[T any](key string, mostRunes int, field func(*T) *string) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		return Entry{Key: key, Text: &TextEntry{mostRunes, func(j *Job, i int) *string { return field(at(j, i)) }}}
	}
}

// yes is an entry that is so or not.
func yes[T any](key string, field func(*T) *bool) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		return Entry{Key: key, Flag: func(j *Job, i int) *bool { return field(at(j, i)) }}
	}
}

// inWall is an entry for the wall that a thing is in or at.
func inWall[T any](field func(*T) *int) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		return Entry{Key: "wall", Wall: func(j *Job, i int) *int { return field(at(j, i)) }}
	}
}

// corner is an entry for a corner of the room.
func corner[T any](key string, field func(*T) *int) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		return Entry{Key: key, Corner: func(j *Job, i int) *int { return field(at(j, i)) }}
	}
}

// where is an entry that a thing needs only if it is so.
func where[T any](uses func(*T) bool, entry func(func(*Job, int) *T) Entry) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		e := entry(at)
		e.uses = func(j *Job, i int) bool { return uses(at(j, i)) }
		return e
	}
}

// explained is an entry with a help of its own.
func explained[T any](entry func(func(*Job, int) *T) Entry) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		e := entry(at)
		e.Explained = true
		return e
	}
}

// lessUsed is an entry that is less used.
func lessUsed[T any](entry func(func(*Job, int) *T) Entry) func(func(*Job, int) *T) Entry {
	return func(at func(*Job, int) *T) Entry {
		e := entry(at)
		e.Less = true
		return e
	}
}

// Lists are the lists of things of a job that are added and taken away, in the order of the
// stations; they are not to be changed.
func Lists() []List { return lists() }

// lists are the same for every job, which is checked with them: made once.
var lists = sync.OnceValue(func() []List {
	return slices.DeleteFunc(allLists(), func(l List) bool { return l.Fixed })
})

// allLists are those and the walls.
func allLists() []List {
	var out []List
	for _, in := range inputs() {
		switch {
		case in.Things != nil:
			out = append(out, *in.Things)
		case in.Table != nil && in.Table.of != nil:
			out = append(out, *in.Table.of)
		}
	}
	return out
}

// everyList is allLists, made once.
var everyList = sync.OnceValue(allLists)

// FindList is the list of a key.
func FindList(key string) (List, bool) {
	for _, l := range Lists() {
		if l.Key == key {
			return l, true
		}
	}
	return List{}, false
}

// lists checks what every list holds, entry by entry; what things of a list must be to
// each other is checked where they are.
func (v *validator) lists(j *Job) {
	for _, l := range everyList() {
		n := l.Count(j)
		if n == 0 || !v.atMost(l.Key, n, l.Most) {
			continue
		}
		entries := l.Entries()
		for i := range n {
			thing := l.path(i) + "."
			for _, e := range entries {
				if e.Uses(j, i) {
					v.entry(j, thing+e.Key, e, i)
				}
			}
		}
	}
}

// Path of an entry of a thing in the job's file.
func (l List) Path(i int, e Entry) string { return l.path(i) + "." + e.Key }

// path of a thing in the job's file; one of which there is at most one has no index.
func (l List) path(i int) string {
	if l.Most == 1 {
		return l.Key
	}
	return Nth(l.Key, i)
}

// Nth is the path in the job's file of a thing of a list, by its index there.
func Nth(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

func (v *validator) entry(j *Job, key string, e Entry, i int) {
	switch {
	case e.Number != nil && !e.Number.Follows():
		if at := e.Number.At(j, i); at != nil {
			v.within(key, *at, e.Number.Least, e.Number.Greatest)
		}
	case e.Choice != nil:
		if is := e.Choice.At(j, i); !slices.Contains(e.Choice.Values, is) {
			v.problems = append(v.problems, Problem{Key: key, What: unknownChoice(is, e.Choice.Words), Usual: e.Choice.Values[0]})
		}
	case e.Text != nil:
		v.text(key, *e.Text.At(j, i), e.Text.MostRunes, false)
	case e.Wall != nil:
		if w, n := *e.Wall(j, i), len(j.Room.Outline); w < 0 || w >= n {
			v.noWall(key, &j.Room)
		}
	case e.Corner != nil:
		if c, n := *e.Corner(j, i), len(j.Room.Outline); c < 0 || c >= n {
			v.add(key, "problem.no-corner", message.No("corners", n))
		}
	}
}

// placeInList is where in a list a path of a job's file leads; ok is false where it leads
// into none.
func placeInList(key string, in *Job) (message.Message, bool) {
	l, i, rest, ok := inList(key)
	if !ok {
		return message.Message{}, false
	}
	if e, ok := l.entryAt(rest); ok {
		return l.Message(in, i, e), true
	}
	return l.Item(in, i), true
}

// entryInList is which thing of a list and which entry of it, by the name of its field, a path of
// a job's file leads to; ok is false where it leads to none, or the entry has words of its own.
func entryInList(key string, in *Job) (item, entry message.Message, ok bool) {
	l, i, rest, _ := inList(key)
	e, ok := l.entryAt(rest)
	if _, own := l.ownWords(e); !ok || own {
		return item, entry, false
	}
	return l.Item(in, i), l.called(in, i, e), true
}

// InList is which thing of which list a path of a job's file leads to, by its index, and which entry
// of it, empty for none; ok is false where it leads into no list.
func InList(key string) (l List, i int, entry string, ok bool) {
	l, i, rest, ok := inList(key)
	return l, i, strings.TrimPrefix(rest, "."), ok
}

// inList is which thing of which list a path leads into, by its index, and the rest of the path.
func inList(key string) (l List, i int, rest string, ok bool) {
	for _, l := range everyList() {
		if i, rest, in := l.within(key); in {
			return l, i, rest, true
		}
	}
	return List{}, 0, "", false
}

// entryAt is the entry that the rest of a path leads to, past one of the list's things.
func (l List) entryAt(rest string) (e Entry, ok bool) {
	at := slices.IndexFunc(l.entries, func(e Entry) bool { return rest == "."+e.Key })
	if at < 0 {
		return Entry{}, false
	}
	return l.entries[at], true
}

// within is the index of the thing of the list that a path of the job's file leads into,
// and the rest of the path; ok is false where it leads into none.
func (l List) within(key string) (i int, rest string, ok bool) {
	rest, ok = strings.CutPrefix(key, l.Key)
	if !ok {
		return 0, "", false
	}
	if l.Most == 1 {
		return 0, rest, rest == "" || rest[0] == '.'
	}
	if rest, ok = strings.CutPrefix(rest, "["); !ok {
		return 0, "", false
	}
	index, rest, ok := strings.Cut(rest, "]")
	i, err := strconv.Atoi(index)
	return i, rest, ok && err == nil
}
