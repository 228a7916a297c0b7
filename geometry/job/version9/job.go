// Package version9 is the job format's version 9, as it was released: read for
// ever, never written, never changed.
package version9

import "encoding/json"

// Job is a saved job of version 9. What lies deeper and is not here is the same in version 10 and read as that has it.
type Job struct {
	Version    int             `json:"version"`
	State      int             `json:"state,omitempty"`
	Name       string          `json:"name"`
	Notes      string          `json:"notes,omitempty"`
	Region     string          `json:"region"`
	Edition    string          `json:"edition,omitempty"`
	Accessible bool            `json:"accessible"`
	Units      string          `json:"units"`
	Room       json.RawMessage `json:"room"`
	Floor      json.RawMessage `json:"floor"`
	SpotLevels json.RawMessage `json:"spotLevels,omitempty"`
	Laser      json.RawMessage `json:"laser,omitempty"`
	Shower     json.RawMessage `json:"shower"`
	Base       json.RawMessage `json:"base"`
	Former     json.RawMessage `json:"former"`
	Drain      json.RawMessage `json:"drain"`
	Waste      json.RawMessage `json:"waste"`
	Layers     json.RawMessage `json:"layers"`
	Water      json.RawMessage `json:"water"`
	Tolerances json.RawMessage `json:"tolerances"`
	AsBuilt    json.RawMessage `json:"asBuilt,omitempty"`
	Style      json.RawMessage `json:"style"`
	Parts      json.RawMessage `json:"parts,omitempty"`
	Picture    *Picture        `json:"picture,omitempty"`
	Standings  json.RawMessage `json:"standings,omitempty"`
}

// Picture is how the finished room was shown.
type Picture struct {
	Light  string          `json:"light"`
	Hour   float64         `json:"hour"`
	Things json.RawMessage `json:"things,omitempty"`
}
