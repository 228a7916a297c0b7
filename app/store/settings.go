package store

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"sync"
)

// Settings are what is kept on a machine whatever the job, by its keys, as a file in the program's own folder; in memory alone where
// there is no folder. They may be used from any goroutine.
type Settings struct {
	mu     sync.Mutex
	path   string
	values map[string]any
}

// settingsFile is the file's name, and mostSettings how large it may be.
const (
	settingsFile = "settings.json"
	mostSettings = 4 << 20
)

// OpenSettings are the settings in a folder. Where it has none yet those of an earlier file are taken over, as they are then changed,
// once: from then on they stand in the folder. A file that cannot be read has none.
func OpenSettings(folder, earlier string, changed func(map[string]any)) *Settings {
	if folder == "" {
		return &Settings{values: map[string]any{}}
	}
	s := &Settings{path: filepath.Join(folder, settingsFile)}
	if _, err := os.Stat(s.path); err == nil || earlier == "" {
		s.values = valuesIn(s.path)
		return s
	}
	if s.values = valuesIn(earlier); len(s.values) > 0 {
		changed(s.values)
		s.write()
	}
	return s
}

// valuesIn are those of a file; none of one that is not there, or cannot be read.
func valuesIn(path string) map[string]any {
	out := map[string]any{}
	if data, _, err := Read(path, mostSettings); err != nil || json.Unmarshal(data, &out) != nil || out == nil {
		return map[string]any{}
	}
	return out
}

// write writes them; where they cannot be written they are in memory alone.
func (s *Settings) write() {
	data, err := json.MarshalIndent(s.values, "", " ")
	if err != nil || s.path == "" || os.MkdirAll(filepath.Dir(s.path), 0o755) != nil {
		return
	}
	_, _ = Write(s.path, data) // what the file has nothing of is written with the next that is set
}

// value is one of them; nil where it is not kept.
func (s *Settings) value(key string) any {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.values[key]
}

// set keeps one of them, none for nil, with what another window has written meanwhile.
func (s *Settings) set(key string, v any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.path != "" {
		maps.Copy(s.values, valuesIn(s.path))
	}
	if v == nil {
		delete(s.values, key)
	} else {
		s.values[key] = v
	}
	s.write()
}

// StringWithFallback is a text, or another where none is kept.
func (s *Settings) StringWithFallback(key, otherwise string) string {
	if v, ok := s.value(key).(string); ok {
		return v
	}
	return otherwise
}

// FloatWithFallback is a number, or another where none is kept.
func (s *Settings) FloatWithFallback(key string, otherwise float64) float64 {
	if v, ok := s.value(key).(float64); ok {
		return v
	}
	return otherwise
}

// String is a text; none where none is kept.
func (s *Settings) String(key string) string { return s.StringWithFallback(key, "") }

// Bool is what is so; false where nothing is kept.
func (s *Settings) Bool(key string) bool { v, _ := s.value(key).(bool); return v }

// SetString keeps a text.
func (s *Settings) SetString(key, v string) { s.set(key, v) }

// SetBool keeps what is so or not.
func (s *Settings) SetBool(key string, v bool) { s.set(key, v) }

// SetFloat keeps a number.
func (s *Settings) SetFloat(key string, v float64) { s.set(key, v) }

// RemoveValue keeps nothing of a key any longer.
func (s *Settings) RemoveValue(key string) { s.set(key, nil) }
