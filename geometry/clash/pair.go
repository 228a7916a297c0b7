package clash

// Kind is what a body is.
type Kind string

// What is held against something.
const (
	Pipe    Kind = "pipe"
	Fitting Kind = "fitting" // bends, reducers, extenders: the pipe with its sockets
	Trap    Kind = "trap"
	Channel Kind = "channel" // of the drain
)

// What is in the way.
const (
	Joist Kind = "joist"
	Stud  Kind = "stud"
	Floor Kind = "floor" // slab or deck
)

// Pair is what a body keeps from what is in its way.
type Pair struct {
	Body, Fixed Kind
	// ClearMM is the room left between them; 0 where they may touch.
	ClearMM float64
	// Through tells that the body may pass through, as a hole or notch that has
	// rules of its own. Only where it does not pass through is the room kept.
	Through bool
}

// ClearanceMM is the room left round a pipe so that the floor can move without
// noise. Common practice, no source.
const ClearanceMM = 3

// Pairs are all that are held against each other.
func Pairs() []Pair {
	return []Pair{
		{Body: Pipe, Fixed: Joist, ClearMM: ClearanceMM, Through: true},
		{Body: Fitting, Fixed: Joist, ClearMM: ClearanceMM},
		{Body: Trap, Fixed: Joist},
		{Body: Channel, Fixed: Joist},
		{Body: Channel, Fixed: Floor},
		{Body: Pipe, Fixed: Stud},
		{Body: Fitting, Fixed: Stud},
	}
}

// Between is what two kinds keep from each other; ok is false for a pair that is
// held against nothing.
func Between(body, fixed Kind) (p Pair, ok bool) {
	for _, p := range Pairs() {
		if p.Body == body && p.Fixed == fixed {
			return p, true
		}
	}
	return Pair{}, false
}
