package job

import (
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"underfall/geometry/message"
)

// Standing is how far an input of a job is known, and whether anything but a person may
// change it. What is worked out has none: it is no input.
type Standing string

// The standings of an input.
const (
	// Stated is the usual: it is known, and may be moved by what is found. Nothing is kept
	// of it.
	Stated Standing = ""
	// NotKnown has a value to draw with and no meaning beyond: it may be otherwise.
	NotKnown Standing = "not-known"
	// Assumed stands in by usual practice until somebody confirms or changes it.
	Assumed Standing = "assumed"
	// Held is typed by a person and fixed: no search and no remedy moves it by itself.
	Held Standing = "held"
)

// InputStandings are the standings that a file keeps.
func InputStandings() Enum[Standing] {
	return enum("standing", Assumed, NotKnown, Assumed, Held)
}

// Open tells whether the input may yet turn out otherwise: nobody has stated it.
func (s Standing) Open() bool { return s == NotKnown || s == Assumed }

// standingKey is the path under which the standing of an input is kept: of several that lead to one
// statement, as a table of inputs has them, always the same.
func standingKey(key string) string {
	switch key {
	case ExitInvertKey:
		return exitLevelKey
	case OutletKey:
		return "drain.outletTurnDeg"
	case PipeSizeKey:
		return "waste.nominalMM"
	}
	if list := listOfPlaces(key); list != "" {
		return list
	}
	return key
}

// StandingOf is the standing of an input, by its path in the job's file or its key in the table of
// inputs. What leads to no input is as stated as everything that nothing is kept of.
func (j *Job) StandingOf(key string) Standing { return j.Standings[standingKey(key)] }

// SetStanding keeps the standing of an input; nothing where the key leads to none.
func (j *Job) SetStanding(key string, s Standing) {
	key = standingKey(key)
	switch {
	case s == Stated || !j.HasInput(key):
		delete(j.Standings, key)
		if len(j.Standings) == 0 {
			j.Standings = nil
		}
	default:
		if j.Standings == nil {
			j.Standings = map[string]Standing{}
		}
		j.Standings[key] = s
	}
}

// Standing are the keys of all inputs of a standing, in order of their letters.
func (j *Job) Standing(s Standing) []string {
	var out []string
	for _, key := range slices.Sorted(maps.Keys(j.Standings)) {
		if j.Standings[key] == s {
			out = append(out, key)
		}
	}
	return out
}

// StandingUsed are the keys of a standing that the job's geometry depends on: what is assumed of a slab is nothing to a floor on
// joists.
func (j *Job) StandingUsed(s Standing) []string {
	return slices.DeleteFunc(j.Standing(s), func(key string) bool { return !j.Uses(key) })
}

// HasInput tells whether a path of the job's file leads to an input that the job has: a number,
// a word, a place, something so or not so, what may be absent, a part that is chosen, or a list as a
// whole.
func (j *Job) HasInput(key string) bool {
	_, ok := j.input(standingKey(key))
	return ok
}

// KeepStandings lets go of standings of inputs that the job no longer has.
func (j *Job) KeepStandings() {
	for _, key := range slices.Sorted(maps.Keys(j.Standings)) {
		if _, ok := j.input(key); !ok {
			j.SetStanding(key, Stated)
		}
	}
}

// Uses tells whether the job's geometry depends on an input; true for one it cannot tell of.
func (j *Job) Uses(key string) bool {
	if l, i, entry, ok := InList(key); ok && entry != "" && i < l.Count(j) {
		e, ok := l.entryAt("." + entry)
		return !ok || e.Uses(j, i)
	}
	in, ok := FindInput(key)
	return !ok || in.Uses(j)
}

// Moved are the inputs of a standing in a job that its geometry depends on, and that another job has
// another value of, has no use for, or has not at all.
func (j *Job) Moved(after *Job, s Standing) []string {
	return slices.DeleteFunc(j.Standing(s), func(key string) bool {
		was, _ := j.input(key)
		is, ok := after.input(key)
		return !j.Uses(key) || ok && after.Uses(key) && reflect.DeepEqual(was.Interface(), is.Interface())
	})
}

// WithoutItem lets go of the standings of one thing of a list, by the list's key in the file, and
// keeps those of the things after it with them as they move up by one.
func (j *Job) WithoutItem(list string, i int) {
	was := j.Standings
	j.Standings = nil
	for key, s := range was {
		at, rest, in := indexIn(key, list)
		switch {
		case !in || at < i:
		case at == i:
			continue
		default:
			key = list + "[" + strconv.Itoa(at-1) + "]" + rest
		}
		if j.Standings == nil {
			j.Standings = map[string]Standing{}
		}
		j.Standings[key] = s
	}
}

// indexIn is which thing of a list a key leads into, and the rest of the key.
func indexIn(key, list string) (i int, rest string, ok bool) {
	if rest, ok = strings.CutPrefix(key, list+"["); !ok {
		return 0, "", false
	}
	index, rest, ok := strings.Cut(rest, "]")
	i, err := strconv.Atoi(index)
	return i, rest, ok && err == nil
}

// NumberAt is the number that a path of the job's file leads to; ok is false where it leads to none,
// or to one that is absent.
func (j *Job) NumberAt(key string) (v float64, ok bool) {
	at, ok := j.input(key)
	if ok && at.Kind() == reflect.Pointer && !at.IsNil() {
		at = at.Elem()
	}
	if !ok || at.Kind() != reflect.Float64 {
		return 0, false
	}
	return at.Float(), true
}

// SetNumber gives the number that a path of the job's file leads to a value, also one that was
// absent; nothing where it leads to none.
func (j *Job) SetNumber(key string, v float64) {
	at, ok := j.input(key)
	switch {
	case !ok:
	case at.Kind() == reflect.Float64:
		at.SetFloat(v)
	case at.Type() == reflect.TypeFor[*float64]():
		at.Set(reflect.ValueOf(&v))
	}
}

// FlagAt is what is so or not so at a path of the job's file; nil where it leads to no such thing.
func (j *Job) FlagAt(key string) *bool {
	if at, ok := j.input(key); ok && at.Kind() == reflect.Bool {
		return at.Addr().Interface().(*bool)
	}
	return nil
}

// noInputs are the parts of a file that state nothing of a floor, or what only a laser tells.
func noInputs() []string {
	return []string{"version", "state", "name", "notes", "edition", "units", "standings", "asBuilt"}
}

// input is what a path of the job's file leads to; ok is false where that is no input.
func (j *Job) input(key string) (v reflect.Value, ok bool) {
	v = reflect.ValueOf(j).Elem()
	for at, name := range strings.Split(key, ".") {
		if at == 0 && slices.Contains(noInputs(), name) {
			return v, false
		}
		name, index, indexed := strings.Cut(name, "[")
		if v.Kind() == reflect.Pointer {
			if v.IsNil() || strings.HasPrefix(key, "parts.") { // nothing of a copy of a part is stated
				return v, false
			}
			v = v.Elem()
		}
		if v, ok = named(v, name); !ok {
			return v, false
		}
		if indexed {
			if v, ok = indexedBy(v, index); !ok {
				return v, false
			}
		}
	}
	return v, isInput(v)
}

// named is the field that a file has under a name; fields of an embedded struct stand among
// the others.
func named(v reflect.Value, name string) (reflect.Value, bool) {
	if v.Kind() != reflect.Struct {
		return v, false
	}
	for i := range v.NumField() {
		f := v.Type().Field(i)
		tag, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if f.Anonymous && tag == "" {
			if in, ok := named(v.Field(i), name); ok {
				return in, true
			}
		} else if f.IsExported() && tag == name && name != "" {
			return v.Field(i), true
		}
	}
	return v, false
}

// indexedBy is the thing of a list, or the coordinate of a place, by the rest of "[n]".
func indexedBy(v reflect.Value, rest string) (reflect.Value, bool) {
	number, closed := strings.CutSuffix(rest, "]")
	i, err := strconv.Atoi(number)
	list := v.Kind() == reflect.Array || v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Struct
	if !closed || err != nil || strconv.Itoa(i) != number || !list || i < 0 || i >= v.Len() {
		return v, false
	}
	return v.Index(i), true
}

// isInput tells whether a value is one statement, not a group of them.
func isInput(v reflect.Value) bool {
	_, level := v.Interface().(ExitLevel)
	return level || v.Kind() != reflect.Struct
}

// standings checks that every standing is one, of an input that the job has.
func (v *validator) standings(j *Job) {
	for _, key := range slices.Sorted(maps.Keys(j.Standings)) {
		if _, ok := j.input(key); !ok {
			v.add("standings", "problem.standing-of-nothing", message.Name("name", key))
		} else {
			checkEnum(v, key, j.Standings[key], InputStandings())
		}
	}
}
