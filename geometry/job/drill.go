package job

// DrillFrom is the side that a hole through a wall is drilled from.
type DrillFrom string

// The sides.
const (
	DrillInside  DrillFrom = "inside"
	DrillOutside DrillFrom = "outside"
)

// Drill is what the rig that drills the hole through the wall needs.
type Drill struct {
	From DrillFrom `json:"from"`
	// LeastAxisMM is how high its axis stands over what it stands on at least: the bare
	// floor inside, or the ground outside.
	LeastAxisMM float64 `json:"leastAxisMM"`
}

// UsualDrill is held in two hands inside, its body clear of the floor. Common practice, no
// source.
func UsualDrill() Drill { return Drill{DrillInside, 60} }
