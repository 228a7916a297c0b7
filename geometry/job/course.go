package job

import "underfall/geometry/unit"

// CourseKind is what an extra layer of a build-up is.
type CourseKind string

// The kinds of extra layer.
const (
	CoursePrimer     CourseKind = "primer"
	CourseLevelling  CourseKind = "levelling"  // levelling compound
	CourseInsulation CourseKind = "insulation" // boards under a screed or a base
	CourseScreed     CourseKind = "screed"
	CourseOverlay    CourseKind = "overlay"    // boards that stiffen a deck for tile
	CourseDecoupling CourseKind = "decoupling" // a mat that lets tile and floor move apart
	CourseHeating    CourseKind = "heating"    // an electric mat in its compound
	CourseLining     CourseKind = "lining"     // boards on a wall
)

// Course is an extra layer of a build-up, as thick all over.
type Course struct {
	Kind CourseKind `json:"kind"`
	Layer
}

// Courses are all lists of extra layers: under the base, the shower's finish, the room's
// and the walls'.
func (j *Job) Courses() [4]*[]Course {
	return [4]*[]Course{&j.Base.Under, &j.Layers.Shower.Under, &j.Layers.Room.Under, &j.Layers.Wall.Under}
}

// coursesMM is how thick courses are together.
func coursesMM(courses []Course) float64 {
	sum := 0.0
	for i := range courses {
		sum += courses[i].ThicknessMM
	}
	return sum
}

// UnderMM is what lies under the finish's tanking: its courses.
func (f *Finish) UnderMM() float64 { return coursesMM(f.Under) }

// Heated tells whether a heating mat lies under the finish.
func (f *Finish) Heated() bool {
	for i := range f.Under {
		if f.Under[i].Kind == CourseHeating {
			return true
		}
	}
	return false
}

// ExistingKind is what a layer found on the structural floor is.
type ExistingKind string

// The kinds of layer that may be found.
const (
	ExistingFinish     ExistingKind = "finish"
	ExistingScreed     ExistingKind = "screed"
	ExistingInsulation ExistingKind = "insulation"
	ExistingMembrane   ExistingKind = "membrane" // against damp from the ground
	ExistingBoards     ExistingKind = "boards"
)

// TakenOut is where a layer that was found is taken out.
type TakenOut string

// Where it may be taken out.
const (
	OutNowhere    TakenOut = "stays"
	OutShower     TakenOut = "shower" // where the shower's floor comes
	OutEverywhere TakenOut = "everywhere"
)

// Existing is a layer found on the structural floor.
type Existing struct {
	Kind        ExistingKind `json:"kind"`
	ThicknessMM float64      `json:"thicknessMM"`
	Out         TakenOut     `json:"out"`
}

// Where tells whether the layer of an index stays under the shower's floor, and in the
// room. What lies on a layer that is taken out comes out with it.
func (f *Floor) Where(i int) (shower, room bool) {
	shower, room = true, true
	for _, e := range f.Existing[:i+1] {
		shower = shower && e.Out == OutNowhere
		room = room && e.Out != OutEverywhere
	}
	return shower, room
}

// KeepsFinish tells that an existing finish stays uppermost in the room, which then has
// no layers of its own.
func (f *Floor) KeepsFinish() bool {
	_, keeps := f.TopFinish()
	return keeps
}

// TopFinish is the index of the finish that stays uppermost in the room; ok is false where
// none does.
func (f *Floor) TopFinish() (i int, ok bool) {
	for i := len(f.Existing) - 1; i >= 0; i-- {
		if _, room := f.Where(i); room {
			return i, f.Existing[i].Kind == ExistingFinish
		}
	}
	return 0, false
}

// KeptUnderRampMM is how thick what stays under a ramp is: what stays in the room but for
// a finish uppermost.
func (f *Floor) KeptUnderRampMM() float64 {
	kept := f.KeptInRoomMM()
	if i, ok := f.TopFinish(); ok {
		kept -= f.Existing[i].ThicknessMM
	}
	return kept
}

// KeptInRoomMM is how thick what stays in the room is.
func (f *Floor) KeptInRoomMM() float64 { return f.keptMM(false) }

// keptMM is how thick what stays is, where the shower's floor comes or beside it.
func (f *Floor) keptMM(underShower bool) float64 {
	sum := 0.0
	for i, e := range f.Existing {
		if shower, room := f.Where(i); underShower && shower || !underShower && room {
			sum += e.ThicknessMM
		}
	}
	return sum
}

// KeptUnderBaseMM is how thick what stays under the shower's base is: nothing where the
// base is let in, for which the deck itself is cut out.
func (j *Job) KeptUnderBaseMM() float64 {
	if j.Base.Support != OnFloor {
		return 0
	}
	return j.Floor.keptMM(true)
}

// UnderBase are the courses under the base's bed: none where it is let in.
func (j *Job) UnderBase() []Course {
	if j.Base.Support != OnFloor {
		return nil
	}
	return j.Base.Under
}

// SetDown is how far the slab lies lower under the shower's floor; 0 for a deck.
func (j *Job) SetDown() float64 {
	if j.Floor.Kind != FloorSlab || j.Base.Support != OnFloor {
		return 0
	}
	return j.Floor.SetDownMM
}

// OnStructureMM is how far over the structural floor of the room the base's bed lies on
// what is under it; negative in a slab that is set down.
func (j *Job) OnStructureMM() float64 {
	return j.KeptUnderBaseMM() + coursesMM(j.UnderBase()) - j.SetDown()
}

// mostCourses is how many extra layers a place may have, and how many may be found on a
// floor.
const mostCourses = 8

// Which courses may lie where. Trade practice, no source.
func underBaseKinds() Enum[CourseKind] {
	return enum("course", CourseScreed, CoursePrimer, CourseLevelling, CourseInsulation, CourseScreed, CourseOverlay)
}

func underShowerKinds() Enum[CourseKind] {
	return enum("course", CourseDecoupling, CoursePrimer, CourseLevelling, CourseDecoupling, CourseHeating)
}

func underRoomKinds() Enum[CourseKind] {
	return enum("course", CourseDecoupling,
		CoursePrimer, CourseLevelling, CourseInsulation, CourseScreed, CourseOverlay, CourseDecoupling, CourseHeating)
}

func onWallKinds() Enum[CourseKind] {
	return enum("course", CourseLining, CoursePrimer, CourseLining)
}

// CourseKinds are all kinds of extra layer.
func CourseKinds() Enum[CourseKind] {
	return enum("course", CourseScreed,
		CoursePrimer, CourseLevelling, CourseInsulation, CourseScreed, CourseOverlay, CourseDecoupling, CourseHeating, CourseLining)
}

// ExistingKinds are all kinds of layer that may be found on a floor.
func ExistingKinds() Enum[ExistingKind] {
	return enum("existing", ExistingFinish, ExistingFinish, ExistingScreed, ExistingInsulation, ExistingMembrane, ExistingBoards)
}

// TakenOuts are where what was found may be taken out.
func TakenOuts() Enum[TakenOut] {
	return enum("taken-out", OutShower, OutNowhere, OutShower, OutEverywhere)
}

// usualCourse is a course of a kind as it is mostly laid. Thicknesses are common practice,
// no source.
func usualCourse(k CourseKind) func(*Job) Course {
	return func(*Job) Course {
		c := Course{Kind: k, Layer: Layer{3, 0.5}}
		switch k {
		case CourseScreed:
			c.Layer = Layer{65, 3}
		case CourseLining:
			c.Layer = Layer{12.5, 0.5}
		}
		return c
	}
}

// courses makes a list of the extra layers of a place.
func courses(key string, kinds Enum[CourseKind], of func(*Job) *[]Course) List {
	return listed(key, mostCourses, of, usualCourse(kinds.Usual),
		choose("kind", kinds, func(c *Course) *CourseKind { return &c.Kind }),
		number("thicknessMM", unit.Length, 0, 300, 0.5, func(c *Course) *float64 { return &c.ThicknessMM }),
		number("toleranceMM", unit.Length, 0, 30, 0.1, func(c *Course) *float64 { return &c.ToleranceMM }))
}

// existingList is the list of the layers found on the floor.
func existingList() List {
	return asStoodOn(listed("floor.existing", mostCourses, func(j *Job) *[]Existing { return &j.Floor.Existing },
		func(*Job) Existing { return Existing{ExistingFinish, 15, OutShower} }, // common practice, no source
		choose("kind", ExistingKinds(), func(e *Existing) *ExistingKind { return &e.Kind }),
		number("thicknessMM", unit.Length, 0, 300, 0.5, func(e *Existing) *float64 { return &e.ThicknessMM }),
		choose("out", TakenOuts(), func(e *Existing) *TakenOut { return &e.Out })))
}

// underBaseList is the list of the layers under the base.
func underBaseList() List {
	return courses("base.under", underBaseKinds(), func(j *Job) *[]Course { return &j.Base.Under })
}

// underList is the list of the layers under a finish.
func underList(w Where) List {
	kinds := map[Where]Enum[CourseKind]{OnShower: underShowerKinds(), OnRoom: underRoomKinds(), OnWall: onWallKinds()}[w]
	return courses("layers."+string(w)+".under", kinds, func(j *Job) *[]Course { return &w.Of(j).Under })
}
