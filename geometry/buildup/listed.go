package buildup

import (
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
)

// Listed tells whether a layer is one of a list of the job, which its name and material
// follow from.
func (k Kind) Listed() bool {
	return k == Existing || k == ExistingUnder || k == BaseCourse || k == ShowerCourse || k == RoomCourse
}

// CourseName is what a kind of course is called in a list of layers.
func CourseName(k job.CourseKind) message.ID {
	switch k {
	case job.CoursePrimer:
		return "layer.primer"
	case job.CourseLevelling:
		return "layer.levelling"
	case job.CourseInsulation:
		return "layer.insulation"
	case job.CourseScreed:
		return "layer.screed"
	case job.CourseOverlay:
		return "layer.overlay"
	case job.CourseDecoupling:
		return "layer.decoupling"
	case job.CourseHeating:
		return "layer.heating"
	}
	return "layer.lining"
}

// CourseMaterial is what a kind of course is made of.
func CourseMaterial(k job.CourseKind) material.Material {
	switch k {
	case job.CoursePrimer:
		return material.Primer
	case job.CourseLevelling:
		return material.Levelling
	case job.CourseInsulation:
		return material.Insulation
	case job.CourseScreed:
		return material.Mortar
	case job.CourseOverlay:
		return material.Overlay
	case job.CourseDecoupling:
		return material.Decoupling
	case job.CourseHeating:
		return material.Heating
	}
	return material.Lining
}

// existingName is what a kind of layer found on a floor is called.
func existingName(k job.ExistingKind) message.ID {
	switch k {
	case job.ExistingScreed:
		return "layer.existing-screed"
	case job.ExistingInsulation:
		return "layer.existing-insulation"
	case job.ExistingMembrane:
		return "layer.existing-membrane"
	case job.ExistingBoards:
		return "layer.existing-boards"
	}
	return "layer.existing-finish"
}

// existingMaterial is what a kind of layer found on a floor is taken to be made of.
func existingMaterial(k job.ExistingKind) material.Material {
	switch k {
	case job.ExistingScreed:
		return material.Mortar
	case job.ExistingInsulation:
		return material.Insulation
	case job.ExistingMembrane:
		return material.DampProof
	case job.ExistingBoards:
		return material.Deck
	}
	return material.Screed
}
