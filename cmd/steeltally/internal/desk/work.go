package desk

import (
	"steeltally/inventory"
	"steeltally/inventory/openwork"
	"steeltally/inventory/standing"
)

// WorkItem is one thing that waits for a person.
type WorkItem struct {
	Sort       openwork.Sort    `json:"sort"`
	About      inventory.Number `json:"about,omitempty"`
	Player     inventory.Number `json:"player,omitempty"`
	What       string           `json:"what"`
	Hint       string           `json:"hint"`
	Since      string           `json:"since,omitempty"`
	Events     []string         `json:"events,omitempty"`
	*PieceLine                  // of what it is about; nil for what is no piece
	Error      string           `json:"error,omitempty"` // why it can't be told what waits
}

// Work lists everything that waits for a person.
func (d *Desk) Work() ([]WorkItem, error) {
	items, err := d.asideWork()
	if err != nil {
		return nil, err
	}
	if items == nil {
		items = []WorkItem{}
	}
	err = d.askNow(func(v *standing.Now) error {
		for _, item := range openwork.Work(v) {
			line := WorkItem{Sort: item.Sort, About: item.About, Player: item.Player, What: item.What, Hint: item.Hint}
			if item.About.Kind() != inventory.KindPlayer {
				line.PieceLine = pieceIf(v, item.About, v.At)
			}
			if u := item.Unworked; u != nil {
				d.keepOne("what waits", u)
				line.Error, line.Hint = u.Say(), UnworkedHint(*u)
			}
			if !item.Since.Unknown() {
				line.Since = item.Since.Say(d.zone)
			}
			for _, key := range item.Keys {
				line.Events = append(line.Events, key.String())
			}
			items = append(items, line)
		}
		return nil
	})
	return items, err
}
