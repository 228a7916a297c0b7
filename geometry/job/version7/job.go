// Package version7 is the job format's version 7, as it was released: read for
// ever, never written, never changed.
package version7

import "encoding/json"

// Job is a saved job of version 7. What lies deeper than the room, its walls and the readings is
// the same in version 8 and read as that has it.
type Job struct {
	Version    int             `json:"version"`
	Name       string          `json:"name"`
	Notes      string          `json:"notes,omitempty"`
	Region     string          `json:"region"`
	Edition    string          `json:"edition,omitempty"`
	Accessible bool            `json:"accessible"`
	Units      string          `json:"units"`
	Room       Room            `json:"room"`
	Floor      json.RawMessage `json:"floor"`
	SpotLevels []SpotLevel     `json:"spotLevels,omitempty"`
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

// Room is the room of a saved job.
type Room struct {
	Outline   [][2]float64    `json:"outline"`
	Walls     []Wall          `json:"walls"`
	Doorways  json.RawMessage `json:"doorways,omitempty"`
	Windows   json.RawMessage `json:"windows,omitempty"`
	Stacks    json.RawMessage `json:"stacks,omitempty"`
	Slopes    json.RawMessage `json:"slopes,omitempty"`
	Fixtures  json.RawMessage `json:"fixtures,omitempty"`
	PipeEnds  json.RawMessage `json:"pipeEnds,omitempty"`
	HeightMM  float64         `json:"heightMM"`
	North     json.RawMessage `json:"north,omitempty"`
	Edge      string          `json:"edge"`
	RampRunMM float64         `json:"rampRunMM,omitempty"`
}

// Wall is a wall of the room.
type Wall struct {
	Kind            string   `json:"kind"`
	ThicknessMM     float64  `json:"thicknessMM"`
	StudSpacingMM   float64  `json:"studSpacingMM,omitempty"`
	FirstStudMM     float64  `json:"firstStudMM,omitempty"`
	StudWidthMM     float64  `json:"studWidthMM,omitempty"`
	SolePlateMM     float64  `json:"solePlateMM,omitempty"`
	InnerLeafMM     float64  `json:"innerLeafMM,omitempty"`
	CavityMM        float64  `json:"cavityMM,omitempty"`
	OutsideGroundMM *float64 `json:"outsideGroundMM,omitempty"`
	DampCourseMM    *float64 `json:"dampCourseMM,omitempty"`
}

// SpotLevel is a reading on the structural floor.
type SpotLevel struct {
	At          [2]float64 `json:"at"`
	LevelMM     float64    `json:"levelMM"`
	ToleranceMM float64    `json:"toleranceMM,omitempty"`
}
