package clash

// Kind is what a body is.
type Kind uint8

// What is held against each other.
const (
	Pipe    Kind = iota
	Fitting      // bends, reducers, falling pieces, the trap's joint: the pipe with its sockets
	Trap         // its body
	Channel      // of the drain
	Board        // of the base, and the former on it
	Batten       // that carries boards let in between joists
	Joist        // without its cuts
	Deck         // on the joists
	Slab         // of concrete
	Stud         // in a wall
	Wall         // of the room, without its openings
	Doorway      // the opening in a wall
	Stack        // an upright pipe that wastes join
	kindsEnd
)

// Kinds is how many kinds there are.
const Kinds = int(kindsEnd)

// String is the kind as tests and faults name it.
func (k Kind) String() string {
	return [...]string{"pipe", "fitting", "trap", "drain channel", "board", "batten", "joist", "deck", "slab", "stud", "wall", "doorway", "stack"}[k]
}

// Meant is how two kinds of body are meant to lie to each other.
type Meant uint8

// How bodies lie to each other.
const (
	// Unsaid is a pair that the table lacks.
	Unsaid Meant = iota
	// Apart bodies keep their clearance; where it is 0 they may touch.
	Apart
	// Touching bodies are built onto each other, and never into each other: the
	// assembly makes them so.
	Touching
	// Cut bodies would overlap: the one is sawn or drilled out for the other,
	// with room of its own that the assembly makes and rules speak of.
	Cut
	// Implied bodies are apart where another pair is: what keeps clear of a wall
	// keeps clear of its studs and openings.
	Implied
	// Never are two kinds that no job has both of, or of which one is a part of
	// the other.
	Never
)

// Pair is how two kinds are meant to lie to each other.
type Pair struct {
	A, B  Kind
	Meant Meant
	// ClearMM is the room left between bodies that are apart.
	ClearMM float64
	// Through tells that bodies that are otherwise apart may pass through each
	// other, as a hole or notch that has rules of its own.
	Through bool
}

// ClearanceMM is the room left round a pipe so that the floor can move without
// noise. Common practice, no source.
const ClearanceMM = 3

// Pairs are all pairs of kinds, each once.
func Pairs() []Pair {
	return []Pair{
		// The run must not meet itself; neighbours in it are joined.
		{A: Pipe, B: Pipe, Meant: Apart}, {A: Pipe, B: Fitting, Meant: Apart}, {A: Fitting, B: Fitting, Meant: Apart},
		// The first piece of the run is joined to the trap.
		{A: Pipe, B: Trap, Meant: Apart}, {A: Fitting, B: Trap, Meant: Apart},
		{A: Pipe, B: Channel, Meant: Apart}, {A: Fitting, B: Channel, Meant: Apart},
		{A: Pipe, B: Board, Meant: Cut}, {A: Fitting, B: Board, Meant: Cut},
		{A: Pipe, B: Batten, Meant: Cut}, {A: Fitting, B: Batten, Meant: Cut},
		{A: Pipe, B: Joist, Meant: Apart, ClearMM: ClearanceMM, Through: true}, {A: Fitting, B: Joist, Meant: Apart, ClearMM: ClearanceMM},
		{A: Pipe, B: Deck, Meant: Apart, Through: true}, {A: Fitting, B: Deck, Meant: Apart, Through: true},
		{A: Pipe, B: Slab, Meant: Apart, Through: true}, {A: Fitting, B: Slab, Meant: Apart, Through: true},
		{A: Pipe, B: Stud, Meant: Apart}, {A: Fitting, B: Stud, Meant: Apart},
		// Pipe leaves through the wall of its exit.
		{A: Pipe, B: Wall, Meant: Apart, Through: true}, {A: Fitting, B: Wall, Meant: Apart},
		{A: Pipe, B: Doorway, Meant: Apart}, {A: Fitting, B: Doorway, Meant: Apart},

		// There is one trap, and it hangs from the one channel.
		{A: Trap, B: Trap, Meant: Never}, {A: Trap, B: Channel, Meant: Touching},
		{A: Trap, B: Board, Meant: Cut}, {A: Trap, B: Batten, Meant: Cut},
		{A: Trap, B: Joist, Meant: Apart},
		{A: Trap, B: Deck, Meant: Apart}, {A: Trap, B: Slab, Meant: Apart},
		{A: Trap, B: Wall, Meant: Apart}, {A: Trap, B: Stud, Meant: Implied}, {A: Trap, B: Doorway, Meant: Implied},

		{A: Channel, B: Channel, Meant: Never}, {A: Channel, B: Board, Meant: Cut}, {A: Channel, B: Batten, Meant: Cut},
		{A: Channel, B: Joist, Meant: Apart},
		{A: Channel, B: Deck, Meant: Apart}, {A: Channel, B: Slab, Meant: Apart},
		{A: Channel, B: Wall, Meant: Apart}, {A: Channel, B: Stud, Meant: Implied}, {A: Channel, B: Doorway, Meant: Implied},

		{A: Board, B: Board, Meant: Touching}, {A: Board, B: Batten, Meant: Touching}, {A: Board, B: Joist, Meant: Touching},
		{A: Board, B: Deck, Meant: Touching}, {A: Board, B: Slab, Meant: Touching},
		{A: Board, B: Stud, Meant: Touching}, {A: Board, B: Wall, Meant: Touching}, {A: Board, B: Doorway, Meant: Touching},

		{A: Batten, B: Batten, Meant: Touching}, {A: Batten, B: Joist, Meant: Touching},
		{A: Batten, B: Deck, Meant: Touching}, {A: Batten, B: Slab, Meant: Never},
		{A: Batten, B: Stud, Meant: Touching}, {A: Batten, B: Wall, Meant: Touching}, {A: Batten, B: Doorway, Meant: Touching},

		// The structure is there before the work begins.
		{A: Joist, B: Joist, Meant: Touching}, {A: Joist, B: Deck, Meant: Touching}, {A: Joist, B: Slab, Meant: Never},
		{A: Joist, B: Stud, Meant: Touching}, {A: Joist, B: Wall, Meant: Touching}, {A: Joist, B: Doorway, Meant: Touching},
		{A: Deck, B: Deck, Meant: Never}, {A: Deck, B: Slab, Meant: Never},
		{A: Deck, B: Stud, Meant: Touching}, {A: Deck, B: Wall, Meant: Touching}, {A: Deck, B: Doorway, Meant: Touching},
		{A: Slab, B: Slab, Meant: Never},
		{A: Slab, B: Stud, Meant: Touching}, {A: Slab, B: Wall, Meant: Touching}, {A: Slab, B: Doorway, Meant: Touching},
		// Studs and openings are parts of a wall.
		{A: Stud, B: Stud, Meant: Touching}, {A: Stud, B: Wall, Meant: Never}, {A: Stud, B: Doorway, Meant: Touching},
		{A: Wall, B: Wall, Meant: Touching}, {A: Wall, B: Doorway, Meant: Never}, {A: Doorway, B: Doorway, Meant: Touching},

		// The run ends in one stack and keeps clear of the others. The structure is built
		// round them.
		{A: Pipe, B: Stack, Meant: Apart}, {A: Fitting, B: Stack, Meant: Apart}, {A: Trap, B: Stack, Meant: Apart}, {A: Channel, B: Stack, Meant: Apart},
		{A: Board, B: Stack, Meant: Cut}, {A: Batten, B: Stack, Meant: Cut},
		{A: Joist, B: Stack, Meant: Touching}, {A: Deck, B: Stack, Meant: Touching}, {A: Slab, B: Stack, Meant: Touching}, {A: Stud, B: Stack, Meant: Touching},
		{A: Wall, B: Stack, Meant: Touching}, {A: Doorway, B: Stack, Meant: Touching}, {A: Stack, B: Stack, Meant: Touching},
	}
}

// Table has every pair by its two kinds, either way round.
type Table [Kinds][Kinds]Pair

// TableOf puts pairs into a table; what they lack is Unsaid.
func TableOf(pairs []Pair) *Table {
	var t Table
	for _, p := range pairs {
		t[p.A][p.B], t[p.B][p.A] = p, p
	}
	return &t
}
