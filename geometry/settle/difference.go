package settle

import (
	"reflect"
	"strconv"
	"strings"
	"sync"

	"underfall/geometry/job"
)

// unstated are parts of a job's file that state nothing of the floor.
func unstated(key string) bool { return key == "version" || key == "standings" }

// differing are the paths of a job's file at which two jobs differ, in the order of the file: of
// each single statement, of a list of plain values as a whole, and of a list of things that has
// more or fewer of them.
func differing(a, b *job.Job) []string {
	d := differences{}
	d.walk(reflect.ValueOf(a).Elem(), reflect.ValueOf(b).Elem())
	return d.keys
}

// differences are found on a walk through both jobs, at is where it has come to.
type differences struct {
	at   []step
	keys []string
}

// step is a part of a path: a name, or an index for none.
type step struct {
	name  string
	index int
}

// found notes the path that the walk has come to.
func (d *differences) found() {
	var key strings.Builder
	for i, s := range d.at {
		switch {
		case s.name == "":
			key.WriteString("[" + strconv.Itoa(s.index) + "]")
		case i > 0:
			key.WriteString("." + s.name)
		default:
			key.WriteString(s.name)
		}
	}
	d.keys = append(d.keys, key.String())
}

// into walks on into a part.
func (d *differences) into(s step, a, b reflect.Value) {
	d.at = append(d.at, s)
	d.walk(a, b)
	d.at = d.at[:len(d.at)-1]
}

func (d *differences) walk(a, b reflect.Value) {
	switch a.Kind() {
	case reflect.Struct:
		d.structs(a, b)
	case reflect.Pointer:
		d.pointers(a, b)
	case reflect.Slice:
		if a.Type().Elem().Kind() != reflect.Struct || a.Len() != b.Len() {
			d.whole(a, b)
			return
		}
		for i := range a.Len() {
			d.into(step{index: i}, a.Index(i), b.Index(i))
		}
	case reflect.Array:
		for i := range a.Len() {
			d.into(step{index: i}, a.Index(i), b.Index(i))
		}
	case reflect.Map:
		d.whole(a, b)
	case reflect.Float64:
		if x, y := a.Float(), b.Float(); x != y && (x == x || y == y) {
			d.found()
		}
	default:
		if !a.Equal(b) {
			d.found()
		}
	}
}

// whole compares lists as one statement.
func (d *differences) whole(a, b reflect.Value) {
	if (a.Len() > 0 || b.Len() > 0) && !reflect.DeepEqual(a.Interface(), b.Interface()) {
		d.found()
	}
}

// pointers compares what may be absent. A copy of a part as it is sold is one statement.
func (d *differences) pointers(a, b reflect.Value) {
	switch {
	case a.Pointer() == b.Pointer():
	case a.IsNil() || b.IsNil():
		d.found()
	case a.Type().Elem().PkgPath() != reflect.TypeFor[job.Job]().PkgPath() && a.Elem().Kind() == reflect.Struct:
		if !reflect.DeepEqual(a.Interface(), b.Interface()) {
			d.found()
		}
	default:
		d.walk(a.Elem(), b.Elem())
	}
}

func (d *differences) structs(a, b reflect.Value) {
	if a.Type() == reflect.TypeFor[job.ExitLevel]() {
		if a.Interface() != b.Interface() {
			d.found()
		}
		return
	}
	for _, f := range fieldsOf()[a.Type()] {
		switch x, y := a.Field(f.index), b.Field(f.index); {
		case len(d.at) == 0 && unstated(f.name):
		case f.name == "":
			d.walk(x, y)
		default:
			d.into(step{name: f.name}, x, y)
		}
	}
}

// field is one that a file has of a struct: nothing is its name where its fields stand among the others.
type field struct {
	name  string
	index int
}

// fieldsOf are the fields of all structs of a job, the same for every job and so looked up once.
var fieldsOf = sync.OnceValue(func() map[reflect.Type][]field {
	out := map[reflect.Type][]field{}
	var of func(reflect.Type)
	of = func(t reflect.Type) {
		switch t.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array:
			of(t.Elem())
			return
		case reflect.Struct:
		default:
			return
		}
		if _, known := out[t]; known {
			return
		}
		out[t] = nil
		for i := range t.NumField() {
			f := t.Field(i)
			if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); f.IsExported() && name != "-" {
				out[t] = append(out[t], field{name, i})
				of(f.Type)
			}
		}
	}
	of(reflect.TypeFor[job.Job]())
	return out
})

// at is what a path of a job's file leads to; ok is false where it leads to nothing the job has.
func at(j *job.Job, key string) (v reflect.Value, ok bool) {
	v = reflect.ValueOf(j).Elem()
	for _, name := range strings.Split(key, ".") {
		name, rest, _ := strings.Cut(name, "[")
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return v, false
			}
			v = v.Elem()
		}
		if v.Kind() != reflect.Struct {
			return v, false
		}
		if v, ok = named(v, name); !ok {
			return v, false
		}
		for ; rest != ""; rest = strings.TrimPrefix(rest, "[") {
			var index string
			index, rest, _ = strings.Cut(rest, "]")
			i, err := strconv.Atoi(index)
			if k := v.Kind(); err != nil || k != reflect.Slice && k != reflect.Array || i < 0 || i >= v.Len() {
				return v, false
			}
			v = v.Index(i)
		}
	}
	return v, true
}

// named is the field of a struct that a file calls so.
func named(v reflect.Value, name string) (reflect.Value, bool) {
	for _, f := range fieldsOf()[v.Type()] {
		if f.name == name {
			return v.Field(f.index), true
		}
		if f.name == "" {
			if in, ok := named(v.Field(f.index), name); ok {
				return in, true
			}
		}
	}
	return v, false
}

// carry copies what a path leads to from one job into another; false where either has no such.
func carry(to, from *job.Job, key string) bool {
	is, ok := at(to, key)
	was, had := at(from, key)
	if !ok || !had {
		return false
	}
	is.Set(was)
	return true
}

// within tells whether a path leads to another or into it.
func within(key, outer string) bool {
	rest, ok := strings.CutPrefix(key, outer)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}
