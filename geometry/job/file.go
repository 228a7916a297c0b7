package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"strings"
)

// ErrNewer is returned for a job written by a later version of Underfall.
var ErrNewer = errors.New("this job was saved by a newer version of Underfall; update Underfall to open it (the file was not changed)")

// largestFile is far more than any job needs.
const largestFile = 4 << 20

// Parse reads a job from JSON. It refuses unknown fields, trailing text, other
// versions and values that mean nothing, and says where.
func Parse(data []byte) (Job, error) {
	if len(bytes.TrimSpace(data)) == 0 {
		return Job{}, errors.New("the file is empty")
	}
	if len(data) > largestFile {
		return Job{}, errors.New("the file is too large to be a job")
	}
	var head struct {
		Version *int `json:"version"`
	}
	if err := json.Unmarshal(data, &head); err != nil {
		return Job{}, plain(err)
	}
	switch {
	case head.Version == nil:
		return Job{}, errors.New("the version is missing; this is not an Underfall job")
	case *head.Version > Version:
		return Job{}, fmt.Errorf("version %d: %w", *head.Version, ErrNewer)
	case *head.Version < 1:
		return Job{}, fmt.Errorf("version %d is not known", *head.Version)
	}
	j, err := readVersion(*head.Version, data)
	if err != nil {
		return Job{}, err
	}
	if p := j.Validate(); len(p) > 0 {
		return Job{}, p
	}
	return j, nil
}

// unknownField begins the decoder's error about a name that the format lacks;
// it has no type of its own.
const unknownField = "json: unknown field "

// belongs is what a type of the format holds, in words.
func belongs(t reflect.Type) string {
	switch t.Kind() {
	case reflect.String:
		return "a word"
	case reflect.Bool:
		return "true or false"
	case reflect.Slice, reflect.Array:
		return "a list"
	case reflect.Struct:
		return "a group of values"
	case reflect.Int:
		return "a whole number"
	}
	return "a number"
}

// plain puts a decoder's error in words for the person at the screen.
func plain(err error) error {
	var wrong *json.UnmarshalTypeError
	var syntax *json.SyntaxError
	switch {
	case errors.As(err, &wrong):
		found := map[string]string{"string": "words", "number": "a number", "bool": "yes or no", "object": "a group of values", "array": "a list", "null": "nothing"}
		value, literal, _ := strings.Cut(wrong.Value, " ")
		what := found[value]
		if literal != "" {
			what = literal
		}
		return fmt.Errorf("%s: %s belongs here, not %s", placeOf(wrong.Field), belongs(wrong.Type), what)
	case errors.As(err, &syntax):
		return fmt.Errorf("the file is damaged (at its character %d); open another copy of it", syntax.Offset)
	case strings.HasPrefix(err.Error(), unknownField):
		return fmt.Errorf("%s is not part of a job; was it written by a newer version or by hand?", strings.TrimPrefix(err.Error(), unknownField))
	}
	return err
}

// Marshal writes the job as JSON that reads back exactly.
func (j Job) Marshal() ([]byte, error) {
	data, err := json.MarshalIndent(j, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("writing job %q: %w", j.Name, err)
	}
	return append(data, '\n'), nil
}
