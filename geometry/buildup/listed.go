package buildup

import (
	"fmt"

	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
)

// Listed tells whether a layer is one of a list of the job, which its name and material
// follow from.
func (k Kind) Listed() bool {
	return k == Existing || k == ExistingUnder || k == BaseCourse || k == ShowerCourse || k == RoomCourse
}

// PartID is what the body of a layer is called: of one of a list by its number there, of one of a stack of
// boards by how manieth of its kind it is from the floor up, counted from one; 0 for no such number.
func (k Kind) PartID(number, ofKind int) string {
	id := k.Facts().PartID
	if k.InStack() {
		number = ofKind
	}
	if (k.Listed() || k.InStack()) && number > 0 {
		id = fmt.Sprintf("%s-%d", id, number)
	}
	return id
}

// OnRamp is what the body of a layer is called where it lies on the ramp at an open edge, by its index: those of
// every ramp are bodies of their own.
func OnRamp(id string, edge int) string { return fmt.Sprintf("%s-%d", id, edge+1) }

// CourseFacts are what a kind of course is called in a list of layers, and what it is made of.
func CourseFacts(k job.CourseKind) (message.ID, material.Material) {
	switch k {
	case job.CoursePrimer:
		return "layer.primer", material.Primer
	case job.CourseLevelling:
		return "layer.levelling", material.Levelling
	case job.CourseInsulation:
		return "layer.insulation", material.Insulation
	case job.CourseScreed:
		return "layer.screed", material.Mortar
	case job.CourseOverlay:
		return "layer.overlay", material.Overlay
	case job.CourseDecoupling:
		return "layer.decoupling", material.Decoupling
	case job.CourseHeating:
		return "layer.heating", material.Heating
	}
	return "layer.lining", material.Lining
}

// existingFacts are what a kind of layer found on a floor is called, and taken to be
// made of.
func existingFacts(k job.ExistingKind) (message.ID, material.Material) {
	switch k {
	case job.ExistingScreed:
		return "layer.existing-screed", material.Mortar
	case job.ExistingInsulation:
		return "layer.existing-insulation", material.Insulation
	case job.ExistingMembrane:
		return "layer.existing-membrane", material.DampProof
	case job.ExistingBoards:
		return "layer.existing-boards", material.Deck
	}
	return "layer.existing-finish", material.Screed
}
