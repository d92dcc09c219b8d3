package desk

import (
	"runtime"
	"sync"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/outlook"
	"steeltally/inventory/wear"
)

// look learns from the club's steel as it was at an instant.
func (d *Desk) look(at time.Time) (*outlook.Outlook, error) {
	var schedule outlook.Schedule
	var players []inventory.Number
	err := d.book.Read(func(v inventory.View) error {
		schedule = outlook.ReadSchedule(v, at)
		players = outlook.Whom(inventory.RosterOf(v).Members)
		return nil
	})
	if err != nil {
		return nil, err
	}
	members, err := d.gather(players, at)
	if err != nil {
		return nil, err
	}
	return outlook.Look(members, schedule, wear.Defaults())
}

// gather reads the players' steel, a share of it on each processor: reading states
// takes most of a look.
func (d *Desk) gather(players []inventory.Number, at time.Time) ([]*outlook.Member, error) {
	members := make([]*outlook.Member, len(players))
	shares := max(1, min(runtime.GOMAXPROCS(0), len(players)))
	errs := make([]error, shares)
	var readers sync.WaitGroup
	for share := range shares {
		readers.Go(func() {
			errs[share] = d.book.Read(func(v inventory.View) error {
				for i := share; i < len(players); i += shares {
					var err error
					if members[i], err = outlook.Gather(v, players[i], at); err != nil {
						return err
					}
				}
				return nil
			})
		})
	}
	readers.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return members, nil
}
