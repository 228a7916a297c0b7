package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"underfall/geometry/message"
)

// ExitLevelKind is what is known of the level at which the waste leaves.
type ExitLevelKind string

// What can be known of the exit's level.
const (
	// ExitFree: wherever the run comes out.
	ExitFree ExitLevelKind = "free"
	// ExitNotBelow: the invert may lie at the level or higher.
	ExitNotBelow ExitLevelKind = "not-below"
	// ExitExactly: the invert lies at the level, and the fall of the pipe
	// follows from it.
	ExitExactly ExitLevelKind = "exactly"
)

// ExitLevel is the level of the exit's invert: free, not below a level, or
// exactly at one, in millimetres above the datum. There is no level without a
// kind that uses it, nor a kind without its level. The zero value is free.
type ExitLevel struct {
	kind     ExitLevelKind // empty for free
	invertMM float64       // 0 when free
}

// NotBelow is the level of an exit whose invert may not lie under a level.
func NotBelow(invertMM float64) ExitLevel { return ExitLevel{ExitNotBelow, invertMM} }

// Exactly is the level of an exit whose invert is given.
func Exactly(invertMM float64) ExitLevel { return ExitLevel{ExitExactly, invertMM} }

// Kind is what is known of the level.
func (l ExitLevel) Kind() ExitLevelKind {
	if l.kind == "" {
		return ExitFree
	}
	return l.kind
}

// InvertMM is the level above the datum; ok is false when it is free.
func (l ExitLevel) InvertMM() (mm float64, ok bool) { return l.invertMM, l.kind != "" }

// ExactlyMM is the level when it is given exactly, and the fall of the pipe
// follows from it; ok is false when the fall of the pipe is stated.
func (l ExitLevel) ExactlyMM() (mm float64, ok bool) { return l.invertMM, l.kind == ExitExactly }

// At is the level of the same kind elsewhere; a free one stays free.
func (l ExitLevel) At(invertMM float64) ExitLevel {
	if l.kind != "" {
		l.invertMM = invertMM
	}
	return l
}

// Equal tells whether two levels are the same.
func (l ExitLevel) Equal(o ExitLevel) bool { return l == o }

// exitLevelKey is where the level stands in a job's file.
const exitLevelKey = "waste.exit.level"

// savedExitLevel is the level as it stands in a file.
type savedExitLevel struct {
	Kind     ExitLevelKind `json:"kind"`
	InvertMM *float64      `json:"invertMM,omitempty"`
}

// MarshalJSON writes the kind, and the level when there is one.
func (l ExitLevel) MarshalJSON() ([]byte, error) {
	s := savedExitLevel{Kind: l.Kind()}
	if mm, ok := l.InvertMM(); ok {
		s.InvertMM = &mm
	}
	return json.Marshal(s)
}

// UnmarshalJSON refuses a level that a kind has no use for, and a kind that
// lacks its level.
func (l *ExitLevel) UnmarshalJSON(data []byte) error {
	var s savedExitLevel
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&s); err != nil {
		if wrong := (*json.UnmarshalTypeError)(nil); errors.As(err, &wrong) {
			return Problem{Key: exitLevelKey, What: wrongKind(wrong)}
		}
		return fmt.Errorf("reading the exit's level: %w", err)
	}
	switch {
	case !ExitLevelKinds().Has(s.Kind):
		return Problem{Key: exitLevelKey, What: ExitLevelKinds().unknown(s.Kind)}
	case s.Kind == ExitFree && s.InvertMM != nil:
		return Problem{Key: exitLevelKey, What: message.Of("problem.exit-level-free")}
	case s.Kind == ExitFree:
		*l = ExitLevel{}
	case s.InvertMM == nil:
		return Problem{Key: exitLevelKey, What: message.Of("problem.exit-level-missing")}
	default:
		*l = ExitLevel{s.Kind, *s.InvertMM}
	}
	return nil
}
