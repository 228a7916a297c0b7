package job

import (
	"bytes"
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"underfall/geometry/message"
)

// newer says that a later version of Underfall wrote a job, and which versions of the format there are.
func newer(version int) error {
	return &message.Error{What: message.Of("open.newer", message.No("version", version), message.No("known", Version)), Cause: ErrNewer}
}

// IsNewer tells whether a file is of a job that a later version of Underfall wrote.
func IsNewer(data []byte) bool {
	version, err := versionOf(data)
	return err == nil && version > Version
}

// ParseNewer reads a job that a later version of Underfall wrote as far as this one understands it, to be
// looked at: what it has no name for is left out, and a value that is not of its list is stood in for by the
// usual one, which counts as assumed. Unread says all of that, a thing each; of nothing it may be empty, and
// the job still be meant otherwise than it is read. The error is ErrNewer where too little is understood.
func ParseNewer(data []byte) (j Job, unread []message.Message, err error) {
	version, err := versionOf(data)
	if err != nil {
		return Job{}, nil, err
	}
	var file map[string]any
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber() // a number is read once, by what it is for
	if err := dec.Decode(&file); err != nil {
		return Job{}, nil, plain(err)
	}
	file["version"] = Version
	r := newerReader{file: file}
	r.leaveOut("", file, reflect.TypeFor[Job]())
	// Values that stand in may bring others into use.
	const rounds = 4
	for range rounds {
		var problems Problems
		if j, problems, err = r.read(); err != nil {
			return Job{}, nil, newer(version)
		}
		if len(problems) == 0 {
			r.assume(&j)
			return j, r.unread, nil
		}
		for _, p := range problems {
			if !r.standIn(p) {
				return Job{}, nil, newer(version)
			}
		}
	}
	return Job{}, nil, newer(version)
}

// newerReader is a file of a later version while it is being read.
type newerReader struct {
	file    map[string]any
	unread  []message.Message
	stoodIn []string // paths of the values that others stand in for
}

// read reads what is left of the file.
func (r *newerReader) read() (Job, Problems, error) {
	data, err := json.Marshal(r.file)
	if err != nil {
		return Job{}, nil, err
	}
	j, err := decode[Job](data)
	if err != nil {
		return Job{}, nil, err
	}
	for _, key := range slices.Sorted(maps.Keys(j.Standings)) {
		if !j.HasInput(key) {
			delete(j.Standings, key) // of something that is left out
		} else if !InputStandings().Has(j.Standings[key]) {
			delete(j.Standings, key)
			r.tell(message.Of("open.left-out", message.Name("name", "standings"), message.In("place", j.PlaceOf(key))))
		}
	}
	if len(j.Standings) == 0 {
		j.Standings = nil
	}
	return j, j.Validate(), nil
}

// tell adds something that is not understood, once.
func (r *newerReader) tell(m message.Message) {
	if !slices.ContainsFunc(r.unread, func(o message.Message) bool { return o.String() == m.String() }) {
		r.unread = append(r.unread, m)
	}
}

// leaveOut removes from a value of a file what a type has no name for.
func (r *newerReader) leaveOut(path string, value any, t reflect.Type) {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if reflect.PointerTo(t).Implements(reflect.TypeFor[json.Unmarshaler]()) {
		return // which reads itself
	}
	switch value := value.(type) {
	case []any:
		if t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
			for i, v := range value {
				r.leaveOut(path+"["+strconv.Itoa(i)+"]", v, t.Elem())
			}
		}
	case map[string]any:
		if t.Kind() != reflect.Struct {
			return
		}
		known := namesIn(t)
		for _, name := range slices.Sorted(maps.Keys(value)) {
			at := strings.TrimPrefix(path+"."+name, ".")
			if inner, ok := known[name]; ok {
				r.leaveOut(at, value[name], inner)
				continue
			}
			delete(value, name)
			r.tell(message.Of("open.left-out", message.Name("name", name), message.In("place", PlaceInFile(path))))
		}
	}
}

// namesIn are the names that a struct has in a file, with the types of what they name.
func namesIn(t reflect.Type) map[string]reflect.Type {
	names := map[string]reflect.Type{}
	for _, f := range reflect.VisibleFields(t) {
		if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); f.IsExported() && name != "" && name != "-" {
			names[name] = f.Type
		}
	}
	return names
}

// standIn has the usual value stand in for one that is not of its list; it tells whether the problem is
// such a one.
func (r *newerReader) standIn(p Problem) bool {
	if p.Usual == "" {
		return false
	}
	was, ok := r.set(p.Key, p.Usual)
	if !ok {
		return false
	}
	r.stoodIn = append(r.stoodIn, p.Key)
	r.tell(message.Of("open.stood-in", message.In("place", placeOf(p.Key, p.In)), message.Name("value", was)))
	return true
}

// assume has what stands in count as assumed.
func (r *newerReader) assume(j *Job) {
	for _, key := range r.stoodIn {
		j.SetStanding(key, Assumed)
	}
	j.KeepStandings()
}

// set puts a word at a path of the file, and tells the one that was there.
func (r *newerReader) set(path, word string) (was string, ok bool) {
	var at any = r.file
	steps := strings.FieldsFunc(path, func(c rune) bool { return c == '.' || c == '[' || c == ']' })
	for i, step := range steps {
		switch in := at.(type) {
		case map[string]any:
			if i < len(steps)-1 {
				at = in[step]
				continue
			}
			was, ok = in[step].(string)
			in[step] = word
			return was, ok || in[step] == nil
		case []any:
			n, err := strconv.Atoi(step)
			if err != nil || n < 0 || n >= len(in) {
				return "", false
			}
			at = in[n]
		default:
			return "", false
		}
	}
	return "", false
}
