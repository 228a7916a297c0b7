package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"underfall/geometry/message"
)

// ErrNewer is the cause of the error for a job written by a later version of Underfall.
var ErrNewer error = message.Fail("open.newer", message.No("version", Version+1), message.No("known", Version))

// largestFile is far more than any job needs.
const largestFile = 4 << 20

// Parse reads a job from JSON. It refuses unknown fields, trailing text, other
// versions and values that mean nothing, and says where: its errors have words for
// people. A job that was read and means nothing leaves its units, to say so in.
func Parse(data []byte) (Job, error) {
	if len(bytes.TrimSpace(data)) == 0 {
		return Job{}, message.Fail("open.empty")
	}
	if len(data) > largestFile {
		return Job{}, message.Fail("open.too-large")
	}
	version, err := versionOf(data)
	switch {
	case err != nil:
		return Job{}, err
	case version > Version:
		return Job{}, newer(version)
	case version < 1:
		return Job{}, message.Fail("open.unknown-version", message.No("version", version))
	}
	j, err := readVersion(version, data)
	if err != nil {
		return Job{}, err
	}
	if len(j.Standings) == 0 {
		j.Standings = nil
	}
	if j.Room.Measured() {
		if len(j.Room.Outline) > 0 {
			return Job{Units: j.Units}, Problem{Key: OutlineKey, What: message.Of(CornersAreMeasured)}
		}
		j.Room.Outline = slices.Clone(j.Room.Tape.Drawn) // as many corners, of which the measures are
	}
	j.WorkOut()
	if p := j.Validate(); len(p) > 0 {
		return Job{Units: j.Units}, p
	}
	return j, nil
}

// versionOf is the version of the format that a file gives.
func versionOf(data []byte) (int, error) {
	var head struct {
		Version *int `json:"version"`
	}
	if err := json.Unmarshal(data, &head); err != nil {
		return 0, plain(err)
	}
	if head.Version == nil {
		return 0, message.Fail("open.no-job")
	}
	return *head.Version, nil
}

// unknownField begins the decoder's error about a name that the format lacks;
// it has no type of its own.
const unknownField = "json: unknown field "

// belongs is what a type of the format holds.
func belongs(t reflect.Type) message.ID {
	switch t.Kind() {
	case reflect.String:
		return "kind.words"
	case reflect.Bool:
		return "kind.yes-or-no"
	case reflect.Slice, reflect.Array:
		return "kind.list"
	case reflect.Struct:
		return "kind.group"
	case reflect.Int:
		return "kind.whole-number"
	}
	return "kind.number"
}

// found is what stands in a file instead, by the decoder's word for it.
func found(value string) message.Message {
	kind, literal, _ := strings.Cut(value, " ")
	if literal != "" {
		return message.Text(literal)
	}
	return message.Of(map[string]message.ID{"string": "kind.words", "number": "kind.number", "bool": "kind.yes-or-no", "object": "kind.group", "array": "kind.list", "null": "kind.nothing"}[kind])
}

// wrongKind says what stands where something else belongs.
func wrongKind(wrong *json.UnmarshalTypeError) message.Message {
	return message.Of("problem.wrong-kind", message.In("belongs", message.Of(belongs(wrong.Type))), message.In("found", found(wrong.Value)))
}

// plain gives a decoder's error words for the person at the screen.
func plain(err error) error {
	var wrong *json.UnmarshalTypeError
	var syntax *json.SyntaxError
	_, name, unknown := strings.Cut(err.Error(), unknownField)
	switch {
	case errors.As(err, &wrong):
		return Problem{Key: wrong.Field, What: wrongKind(wrong)}
	case errors.As(err, &syntax):
		return &message.Error{What: message.Of("open.damaged", message.No("at", int(syntax.Offset))), Cause: err}
	case unknown:
		return message.Fail("open.unknown-name", message.Name("name", strings.Trim(name, `"`)))
	}
	return err
}

// Marshal writes the job as JSON that reads back exactly: what is stated, and nothing that is worked out from it.
func (j Job) Marshal() ([]byte, error) {
	if j.Room.Measured() {
		j.Room.Outline = nil
	}
	j.SpotLevels = j.StatedLevels()
	data, err := json.MarshalIndent(j, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("writing job %q: %w", j.Name, err)
	}
	return append(data, '\n'), nil
}
