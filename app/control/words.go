package control

import (
	"errors"

	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// FieldWords are what a field for numbers of a kind says, in the language of the window and in
// the units there are then.
func FieldWords(kind unit.Kind, units func() unit.System) Words {
	return Words{
		NotTaken: func(typed string, why error) string {
			u := units()
			return theme.Say(notTaken(typed, why, kind, u), u)
		},
		Which: func(readings []string) string {
			either := message.List{Or: true}
			for _, r := range readings {
				either.Items = append(either.Items, message.Text(r))
			}
			return theme.Say(message.Of("field.which", message.Arg{Name: "readings", Value: either}), units())
		},
		InLarger: func(typed string) string {
			return theme.Word(of(units(), "field.in-metres", "field.in-feet"), message.Name("typed", typed))
		},
		InSmaller: func(typed string) string {
			return theme.Word(of(units(), "field.in-millimetres", "field.in-inches"), message.Name("typed", typed))
		},
		Above:   func(typed string) string { return theme.Word("field.above", message.Name("typed", typed)) },
		Assumed: theme.Word("field.assumed"), NotKnown: theme.Word("field.not-known"), LetGo: theme.Word("field.let-go"),
		States: [NotKnown + 1]string{Held: theme.Word("field.held"), WorkedOut: theme.Word("field.worked-out"),
			Assumed: theme.Word("field.assumed"), NotKnown: theme.Word("field.not-known")},
	}
}

// of is what is said in a system of units.
func of(u unit.System, metric, imperial message.ID) message.ID {
	if u == unit.Imperial {
		return imperial
	}
	return metric
}

// notTaken says that what was typed was not taken: of what makes no sense here what would, as it
// would be typed.
func notTaken(typed string, why error, kind unit.Kind, u unit.System) message.Message {
	out := new(unit.Outside)
	if errors.As(why, &out) {
		return message.Of("field.outside", message.Name("typed", typed),
			message.Name("least", unit.Editable(out.Least, kind, u)), message.Name("greatest", unit.Editable(out.Greatest, kind, u)))
	}
	return message.Of("field.not-taken", message.Name("typed", typed), theme.Because("why", why))
}
