package store

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"underfall/geometry/job"
)

// Comparison is how found work stands against its file.
type Comparison struct {
	State State
	// FileAt is when the file was last changed; the zero time without one.
	FileAt time.Time
	// Differing are the paths of the values that differ from those in the file, as
	// in job.Problem, sorted; meaningful where Compared.
	Differing []string
	Compared  bool
}

// Compare looks at the file that the work belongs to.
func (w Work) Compare() Comparison {
	c := Comparison{State: w.Stamp.Against(w.File)}
	if c.State == Same || c.State == Changed {
		if _, now, err := Read(w.File, LargestJob); err == nil {
			c.FileAt = now.Modified
		}
		c.Differing, c.Compared = w.differencesFrom(w.File)
	}
	return c
}

// differencesFrom lists the values that differ from those of a file; ok is false
// when they cannot be compared.
func (w Work) differencesFrom(file string) (paths []string, ok bool) {
	data, _, err := Read(file, LargestJob)
	if err != nil {
		return nil, false
	}
	var ours, theirs any
	if json.Unmarshal(inToday(w.Job), &ours) != nil || json.Unmarshal(inToday(data), &theirs) != nil {
		return nil, false
	}
	a, b := map[string]any{}, map[string]any{}
	flatten("", ours, a)
	flatten("", theirs, b)
	for path, v := range a {
		if other, ok := b[path]; !ok || v != other {
			paths = append(paths, path)
		}
	}
	for path := range b {
		if _, ok := a[path]; !ok {
			paths = append(paths, path)
		}
	}
	slices.Sort(paths)
	return paths, true
}

// inToday is a job's file in today's format and without how often it was saved, so that one of an earlier version
// differs by its values only; what is no job stays as it is.
func inToday(data []byte) []byte {
	j, err := job.Parse(data)
	if err != nil {
		return data
	}
	j.State = 0
	today, err := j.Marshal()
	if err != nil {
		return data
	}
	return today
}

// nothing stands for an empty list or group in a flat map.
type nothing struct{ list bool }

// flatten lists the values of a JSON text by their paths.
func flatten(path string, v any, into map[string]any) {
	switch v := v.(type) {
	case map[string]any:
		if len(v) == 0 {
			into[path] = nothing{}
		}
		for key, inner := range v {
			at := key
			if path != "" {
				at = path + "." + key
			}
			flatten(at, inner, into)
		}
	case []any:
		if len(v) == 0 {
			into[path] = nothing{list: true}
		}
		for i, inner := range v {
			flatten(fmt.Sprintf("%s[%d]", path, i), inner, into)
		}
	default:
		into[path] = v
	}
}
