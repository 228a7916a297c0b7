package theme

import (
	"time"
)

// How long what moves takes. Nothing else moves, and nothing goes on moving.
const (
	SlideTime  = 120 * time.Millisecond // the tray
	GlideTime  = 240 * time.Millisecond // a vial's bubble
	FadeTime   = 160 * time.Millisecond // one drawing into the next
	FlightTime = 300 * time.Millisecond // the camera
	MarkTime   = 2 * time.Second        // a figure that moved is underlined
	HintTime   = 400 * time.Millisecond // until a hint shows
)

// SetStill has nothing move, or has things move.
func (t *Theme) SetStill(still bool) { t.still = still }

// Moves tells whether things may move: the program and the system both let them.
func (t *Theme) Moves() bool {
	return !t.still && systemMoves()
}
