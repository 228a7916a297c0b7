package app

import (
	"underfall/app/papers"
	"underfall/app/store"
)

// fynePreferences is the file in which the toolkit keeps what it is given, where the program kept its settings before.
const fynePreferences = "preferences.json"

// settingsIn are what is kept on this machine, in the program's own folder; what was kept in an earlier file is taken over where there
// is nothing yet, currency and tax for the country that new jobs were for.
func settingsIn(folder, earlier string) *store.Settings {
	return store.OpenSettings(folder, earlier, func(values map[string]any) {
		country, ok := values[regionKey].(string)
		if !ok {
			country = "UK"
		}
		papers.KeptFor(country, values)
	})
}
