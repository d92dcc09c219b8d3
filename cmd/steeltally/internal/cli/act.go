package cli

import "steeltally/cmd/steeltally/internal/desk"

// act carries out one action and says what came of it.
func (a *app) act(action func(*desk.Desk) (desk.Done, error)) error {
	return a.withDesk(func(d *desk.Desk) error {
		done, err := action(d)
		if err != nil {
			return err
		}
		return a.voice.done(done)
	})
}

// actOn carries out an action on a player who may have to be asked for.
func (a *app) actOn(who string, action func(d *desk.Desk, who string) (desk.Done, error)) error {
	return a.act(func(d *desk.Desk) (desk.Done, error) {
		who, err := a.playerToAct(d, who)
		if err != nil {
			return desk.Done{}, err
		}
		return action(d, who)
	})
}
