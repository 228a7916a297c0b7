// Package version10 is the job format's version 10, as it was released: read for
// ever, never written, never changed.
package version10

import "encoding/json"

// Job is a saved job of version 10. What lies deeper and is not here is the same in version 11 and read as that has it.
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
	Floor      Floor           `json:"floor"`
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
	Picture    json.RawMessage `json:"picture,omitempty"`
	Standings  json.RawMessage `json:"standings,omitempty"`
}

// Floor is the structural floor.
type Floor struct {
	Kind            string          `json:"kind"`
	SlabThicknessMM float64         `json:"slabThicknessMM,omitempty"`
	Deck            json.RawMessage `json:"deck"`
	Joists          json.RawMessage `json:"joists"`
	CeilingBelow    bool            `json:"ceilingBelow,omitempty"`
	SetDownMM       float64         `json:"setDownMM,omitempty"`
	Existing        json.RawMessage `json:"existing,omitempty"`
}
