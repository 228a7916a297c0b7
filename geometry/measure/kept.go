package measure

// kept has things that are made when they are first asked for, and whose room
// serves the next job.
type kept[T any] struct {
	things []T
	made   []bool
}

// at is one of so many things, and whether it has been made since they were last
// forgotten. Where it has not, the caller makes it. It stays in its place while
// their number does not grow.
func (k *kept[T]) at(i, of int) (thing *T, made bool) {
	if short := of - len(k.things); short > 0 {
		k.things = append(k.things, make([]T, short)...)
		k.made = append(k.made, make([]bool, short)...)
	}
	made = k.made[i]
	k.made[i] = true
	return &k.things[i], made
}

// forget lets everything be made anew.
func (k *kept[T]) forget() { clear(k.made) }
