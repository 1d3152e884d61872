package sqlite

import "context"

// Saved reports whether a form with this token was saved, whatever it held:
// receipts are named by the token and, after a colon, the content.
func (s *Store) Saved(ctx context.Context, token string) (bool, error) {
	return view(ctx, s, func(r reader) (bool, error) {
		var n int
		return r.value(`SELECT 1 FROM receipt WHERE token >= ? AND token < ? LIMIT 1`, []any{token + ":", token + ";"}, &n)
	})
}
