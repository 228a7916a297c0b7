// Package version8 is the job format's version 8, as it was released: read for
// ever, never written, never changed.
package version8

import "encoding/json"

// Job is a saved job of version 8. What lies deeper is the same in version 9 and read as that has it.
type Job struct {
	Version    int             `json:"version"`
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
	Standings  json.RawMessage `json:"standings,omitempty"`
}
