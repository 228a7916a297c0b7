package sheet

import (
	"path/filepath"

	"underfall/app/store"
	"underfall/geometry/message"
	"underfall/geometry/price"
	"underfall/geometry/takeoff"
)

// ReadPrices reads a user's list of prices from a file, with the rows that cannot be used; the error says why there is none.
func ReadPrices(path string) (price.List, []price.Bad, error) {
	file := message.Name("file", store.Plain(filepath.Base(path)))
	data, _, err := store.Read(path, store.LargestJob)
	if err != nil {
		return price.List{}, nil, message.Wrap(err, "desk.opening", file)
	}
	list, bad, err := price.Parse(data)
	if err != nil {
		return price.List{}, bad, message.Wrap(err, "desk.opening", file)
	}
	return list, bad, nil
}

// WritePrices writes a list of prices with a row to be filled in for everything that a job takes and the list has none for yet, named by
// say.
func WritePrices(path string, l price.List, of *takeoff.Takeoff, say func(message.Message) string) error {
	data, err := l.With(of, say).Marshal()
	if err == nil {
		_, err = store.Write(path, data)
	}
	if err != nil {
		return message.Wrap(err, "desk.saving", message.Name("file", store.Plain(filepath.Base(path))))
	}
	return nil
}
