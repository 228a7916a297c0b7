package answer

import (
	"time"

	"underfall/app/sight"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Asks are what the answer asks of the window.
type Asks struct {
	// Sight says what heights are counted from; nil for the structural floor.
	Sight *sight.Sight
	// ShowFinding shows the place of a finding, and the field that it is of where it is of one;
	// ShowFigure the place of one of the plate's figures.
	ShowFinding func(rule.Finding)
	ShowFigure  func(geometry.Figure)
	// ToField opens the field of a path in the job's file.
	ToField func(key string)
	// Do makes a change; Try tries one of the offers of a card before it is made.
	Do  func(edit.Edit)
	Try func(all []fit.Offer, at int)
	// Lists are what can be opened for more, by their names, and List opens one.
	Lists []message.ID
	List  func(message.ID)
	// FindRuns opens the list of other ways for the waste and looks for them.
	FindRuns func()
	// After has something done on the window's goroutine after a while; nil where nothing is.
	After func(time.Duration, func())
	// Shown is told each answer that is shown.
	Shown func(geometry.Result, geometry.Answer)
}
