package job

// JoinKind is what the waste joins outside.
type JoinKind string

// What it can join.
const (
	JoinGully JoinKind = "gully"
	JoinStack JoinKind = "stack"
	JoinDrain JoinKind = "drain" // below the ground
)

// Beyond is how the waste goes on past the outer face of the wall that it leaves through.
type Beyond struct {
	LengthMM float64  `json:"lengthMM"` // to where it joins
	Joins    JoinKind `json:"joins"`
	// GratingMM and WaterMM are the levels of a gully's grating and of the water in its
	// trap; nil when they are not known.
	GratingMM *float64 `json:"gratingMM,omitempty"`
	WaterMM   *float64 `json:"waterMM,omitempty"`
	// DownToMM is where the pipe ends that a bend turns down into a gully; nil where no bend
	// does and it ends over the gully.
	DownToMM *float64 `json:"downToMM,omitempty"`
}

func (b *Beyond) gully() bool { return b.Joins == JoinGully }

// TurnsDown tells whether a bend turns the waste down at its end outside: into a gully where
// that is stated, and into a drain below the ground.
func (w *Waste) TurnsDown() bool {
	way := w.WayOut()
	return way != nil && (way.Joins == JoinDrain || way.Joins == JoinGully && way.DownToMM != nil)
}

// Gully is the way out that leads to a gully; nil where none does.
func (w *Waste) Gully() *Beyond {
	if way := w.WayOut(); way != nil && way.gully() {
		return way
	}
	return nil
}

// UsualBeyond leads to a gully near the wall. Common practice, no source.
func UsualBeyond() Beyond { return Beyond{LengthMM: 150, Joins: JoinKinds().Usual} }

// WayOut is how the waste goes on outside; nil when it does not leave through a wall or
// that is not known.
func (w *Waste) WayOut() *Beyond {
	if w.Exit.Kind != ExitWall {
		return nil
	}
	return w.Beyond
}
