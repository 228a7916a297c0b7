package job

import "underfall/geometry/unit"

// Tanking says how far the tanking reaches. Without it the shower's walls are tanked as
// high as they are tiled, and the floor all over the room.
type Tanking struct {
	// WallToMM is how high the shower's walls are tanked, above the tile at the drain; 0
	// for as high as they are tiled. No higher than the room.
	WallToMM float64 `json:"wallToMM,omitempty"`
	// BeyondMM is how far the floor is tanked out from the shower's open edges; absent
	// for all over the room.
	BeyondMM *float64 `json:"beyondMM,omitempty"`
	// DoorStopMM is how far a water stop at the doorways stands over the finished floor;
	// 0 for none.
	DoorStopMM float64 `json:"doorStopMM,omitempty"`
	// ScreenStopMM is how far a water stop along the fixed panes at the shower's open edges stands
	// over the finished floor; 0 for none.
	ScreenStopMM float64 `json:"screenStopMM,omitempty"`
	// UpturnMM is how far the floor's tanking turns up the walls outside the shower, over the
	// finished floor; 0 for none.
	UpturnMM float64 `json:"upturnMM,omitempty"`
}

// TankedToMM is how high the shower's walls are tanked, above the tile at the drain.
func (l *Layers) TankedToMM() float64 {
	if l.Tanking == nil || l.Tanking.WallToMM == 0 {
		return l.WallTiledToMM
	}
	return l.Tanking.WallToMM
}

// RoomFinished tells whether the room has layers of its own: where no existing finish
// stays on top, where it is raised, and where its floor falls as a whole.
func (j *Job) RoomFinished() bool { return roomTiled(*j) }

// TankedBeyondMM is how far the floor is tanked out from the shower's open edges; all is
// true where that is all over the room.
func (j *Job) TankedBeyondMM() (mm float64, all bool) {
	switch t := j.Layers.Tanking; {
	case j.Former.Fall == FallRoom:
		return 0, true
	case !j.RoomFinished() || j.Layers.Room.Tanking.ThicknessMM == 0:
		return 0, false
	case t == nil || t.BeyondMM == nil:
		return 0, true
	default:
		return *t.BeyondMM, false
	}
}

// DoorStopMM is how far a water stop at the doorways stands over the finished floor: none
// where an existing finish stays.
func (j *Job) DoorStopMM() float64 {
	if j.Layers.Tanking == nil || !j.RoomFinished() {
		return 0
	}
	return j.Layers.Tanking.DoorStopMM
}

// ScreenStopMM is how far a water stop along fixed panes stands over the finished floor: none
// where a kerb stands there, or the whole floor falls.
func (j *Job) ScreenStopMM() float64 {
	if j.Layers.Tanking == nil || j.Shower.Kerb != nil || j.Former.Fall == FallRoom {
		return 0
	}
	return j.Layers.Tanking.ScreenStopMM
}

// UpturnMM is how far the floor's tanking turns up the walls outside the shower, over the
// finished floor; tanked is false where no floor beside the shower is tanked.
func (j *Job) UpturnMM() (mm float64, tanked bool) {
	beyond, all := j.TankedBeyondMM()
	switch t := j.Layers.Tanking; {
	case j.Former.Fall == FallRoom || beyond == 0 && !all || j.Layers.Room.Tanking.ThicknessMM == 0:
		return 0, false
	case t == nil:
		return 0, true
	default:
		return t.UpturnMM, true
	}
}

// Joints says how tile is parted from walls and from tile. Without it nothing is said of
// joints.
type Joints struct {
	// PerimeterMM is the gap along walls and doorways, filled with sealant; 0 for tile that
	// touches the wall.
	PerimeterMM float64 `json:"perimeterMM"`
	// AtEdge tells that there is one along the shower's open edges as well, as wide.
	AtEdge bool `json:"atEdge,omitempty"`
	// GreatestFieldMM is the longest side of tile left without a joint across it, 500 at the
	// least; 0 for any.
	GreatestFieldMM float64 `json:"greatestFieldMM,omitempty"`
}

// JointMM is the gap of the tile along walls; 0 for none.
func (l *Layers) JointMM() float64 {
	if l.Joints == nil {
		return 0
	}
	return l.Joints.PerimeterMM
}

// Heating says what a heating mat keeps off. Without it a mat lies all over its zone.
type Heating struct {
	// MarginMM is left along walls, FromDrainMM round the drain.
	MarginMM    float64 `json:"marginMM"`
	FromDrainMM float64 `json:"fromDrainMM"`
}

// Heated tells whether a mat lies in the shower, and in the room beside it.
func (j *Job) Heated() (shower, room bool) {
	return j.Layers.Shower.Heated(), j.Layers.Room.Heated() && j.RoomFinished() && j.Former.Fall != FallRoom
}

// tankingList is the list of how far the tanking reaches, where that is stated.
func tankingList() List {
	return single("layers.tanking", func(j *Job) **Tanking { return &j.Layers.Tanking },
		func(*Job) Tanking { return Tanking{DoorStopMM: 5} }, // common practice, no source
		length("wallToMM", 0, 6000, 50, func(t *Tanking) *float64 { return &t.WallToMM }),
		maybe("beyondMM", unit.Along, 0, 10000, 50, func(t *Tanking) **float64 { return &t.BeyondMM }),
		length("doorStopMM", 0, 100, 1, func(t *Tanking) *float64 { return &t.DoorStopMM }),
		length("screenStopMM", 0, 100, 1, func(t *Tanking) *float64 { return &t.ScreenStopMM }),
		length("upturnMM", 0, 500, 5, func(t *Tanking) *float64 { return &t.UpturnMM }))
}

// jointsList is the list of how tile is parted, where that is stated.
func jointsList() List {
	return single("layers.joints", func(j *Job) **Joints { return &j.Layers.Joints },
		func(*Job) Joints { return Joints{PerimeterMM: 8, AtEdge: true} }, // common practice, no source
		length("perimeterMM", 0, 50, 1, func(x *Joints) *float64 { return &x.PerimeterMM }),
		yes("atEdge", func(x *Joints) *bool { return &x.AtEdge }),
		along("greatestFieldMM", 0, 20000, 100, func(x *Joints) *float64 { return &x.GreatestFieldMM }))
}

// heatingList is the list of what a heating mat keeps off, where that is stated.
func heatingList() List {
	return single("layers.heating", func(j *Job) **Heating { return &j.Layers.Heating },
		func(*Job) Heating { return Heating{MarginMM: 100, FromDrainMM: 100} }, // common practice, no source
		along("marginMM", 0, 1000, 10, func(x *Heating) *float64 { return &x.MarginMM }),
		along("fromDrainMM", 0, 1000, 10, func(x *Heating) *float64 { return &x.FromDrainMM }))
}
