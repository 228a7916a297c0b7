package app

import "underfall/app/still"

// DrawingKind is which drawing a view shows.
type DrawingKind = still.Kind

// The drawings.
const (
	DrawSection = still.Section
	DrawPlan    = still.Plan
	DrawLong    = still.Long
	DrawBed     = still.Bed
	DrawBoards  = still.Boards
)
