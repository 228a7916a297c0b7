package store

import (
	"encoding/json"
	"time"
)

// Comparison is how found work stands against its file.
type Comparison struct {
	State State
	// FileAt is when the file was last changed; the zero time without one.
	FileAt time.Time
	// Values is how many values differ from those in the file, -1 when it has
	// none to compare with.
	Values int
}

// Compare looks at the file that the work belongs to.
func (w Work) Compare() Comparison {
	c := Comparison{State: w.Stamp.Against(w.File), Values: -1}
	if c.State == Same || c.State == Changed {
		if _, now, err := Read(w.File, LargestJob); err == nil {
			c.FileAt = now.Modified
		}
		c.Values = w.differencesFrom(w.File)
	}
	return c
}

// differencesFrom counts the values that differ from those of a file, -1 when
// they cannot be compared.
func (w Work) differencesFrom(file string) int {
	data, _, err := Read(file, LargestJob)
	if err != nil {
		return -1
	}
	var ours, theirs any
	if json.Unmarshal(w.Job, &ours) != nil || json.Unmarshal(data, &theirs) != nil {
		return -1
	}
	return differing(ours, theirs)
}

// differing counts the values in which two JSON texts differ.
func differing(a, b any) int {
	n := 0
	switch a := a.(type) {
	case map[string]any:
		b, alike := b.(map[string]any)
		if !alike {
			break
		}
		for key, v := range a {
			if other, there := b[key]; there {
				n += differing(v, other)
			} else {
				n += values(v)
			}
		}
		for key, v := range b {
			if _, there := a[key]; !there {
				n += values(v)
			}
		}
		return n
	case []any:
		b, alike := b.([]any)
		if !alike {
			break
		}
		for i := range max(len(a), len(b)) {
			switch {
			case i >= len(a):
				n += values(b[i])
			case i >= len(b):
				n += values(a[i])
			default:
				n += differing(a[i], b[i])
			}
		}
		return n
	case nil, bool, float64, string:
		switch b.(type) {
		case nil, bool, float64, string:
			if a == b {
				return 0
			}
		}
	}
	return max(values(a), values(b))
}

// values counts the values in a JSON text; something empty is one.
func values(v any) int {
	n := 0
	switch v := v.(type) {
	case map[string]any:
		for _, inner := range v {
			n += values(inner)
		}
	case []any:
		for _, inner := range v {
			n += values(inner)
		}
	}
	return max(1, n)
}
