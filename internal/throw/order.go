package throw

import "strconv"

// Draw picks a whole number from 0 to n-1 by chance.
type Draw func(n int) int

// Codes draws n different three-digit codes, none of three like digits, so
// that a code says nothing of its candle (ISO 13299 has three-digit random
// codes; read in an extract). n is at most 100.
func Codes(n int, draw Draw) []string {
	var all []string
	for i := 100; i < 1000; i++ {
		if i%111 != 0 {
			all = append(all, strconv.Itoa(i))
		}
	}
	for i := range n {
		j := i + draw(len(all)-i)
		all[i], all[j] = all[j], all[i]
	}
	return all[:n:n]
}

// Order is the order in which the nose-th nose, counted from 0, smells n cups.
// It follows Williams' design (Austral. J. Sci. Res. A 2:149-168, 1949): over n
// noses, or 2n where n is odd, every cup comes equally often at every place and
// equally often right after every other, so that no candle gains by what was
// smelled before it. It is empty for n below 1.
func Order(n, nose int) []int {
	if n < 1 || nose < 0 {
		return nil
	}
	row, back := nose%n, n%2 == 1 && nose/n%2 == 1
	out := make([]int, n)
	for place := range out {
		step := (place + 1) / 2 // 0, 1, n-1, 2, n-2 …
		if place%2 == 0 {
			step = n - place/2
		}
		at := place
		if back {
			at = n - 1 - place
		}
		out[at] = (step + row) % n
	}
	return out
}
