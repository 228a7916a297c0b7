package job

// mostSlopes is how many slopes a room's ceiling may have.
const mostSlopes = 16

// Slope is a plane of the ceiling that rises from a wall into the room. The ceiling is the
// lowest of all slopes and the room's height.
type Slope struct {
	Wall     int     `json:"wall"`
	KneeMM   float64 `json:"kneeMM"` // its level at that wall's inner face
	PitchDeg float64 `json:"pitchDeg"`
}

// usualSlope is of a roof over a knee wall behind the shower. Common practice, no source.
func usualSlope(j *Job) Slope { return Slope{Wall: j.Shower.Wall, KneeMM: 1500, PitchDeg: 40} }
