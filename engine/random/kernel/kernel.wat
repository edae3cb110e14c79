;; The block fills of block-generator.ts with its four lanes in one SIMD register: the same numbers to the bit.
;;
;; Memory, in bytes (kernel.ts holds the same numbers):
;;       0  edges of the ziggurat's layers, doubled, 1025 doubles
;;    8256  the four lanes' states: a, b, c and d, each a register of four words
;;    8320  draws that fell outside their layer's inner box: index and layer (words), position (double), 16 bytes each
;;   48384  columns
(module
  (memory (export "memory") 2)

  ;; Starts the four lanes of a channel: Philox4x32-10 of (block, tag | lane, counter0, counter1), then 12 steps of sfc32.
  (func $open (export "open") (param $key0 i32) (param $key1 i32) (param $block i32) (param $tag i32) (param $counter0 i32) (param $counter1 i32)
    (local $x0 v128) (local $x1 v128) (local $x2 v128) (local $x3 v128)
    (local $p v128) (local $q v128) (local $r v128) (local $s v128)
    (local $m0 v128) (local $m1 v128) (local $k0 i32) (local $k1 i32) (local $round i32) (local $t v128) (local $one v128)
    (local.set $x0 (i32x4.splat (local.get $block)))
    (local.set $x1 (v128.or (i32x4.splat (local.get $tag)) (v128.const i32x4 0 1 2 3)))
    (local.set $x2 (i32x4.splat (local.get $counter0)))
    (local.set $x3 (i32x4.splat (local.get $counter1)))
    (local.set $m0 (v128.const i32x4 0xd2511f53 0xd2511f53 0xd2511f53 0xd2511f53))
    (local.set $m1 (v128.const i32x4 0xcd9e8d57 0xcd9e8d57 0xcd9e8d57 0xcd9e8d57))
    (local.set $k0 (local.get $key0))
    (local.set $k1 (local.get $key1))
    (local.set $round (i32.const 10))
    (loop $rounds
      ;; Two 64-bit products a register: p and q of x0, r and s of x2.
      (local.set $p (i64x2.extmul_low_i32x4_u (local.get $x0) (local.get $m0)))
      (local.set $q (i64x2.extmul_high_i32x4_u (local.get $x0) (local.get $m0)))
      (local.set $r (i64x2.extmul_low_i32x4_u (local.get $x2) (local.get $m1)))
      (local.set $s (i64x2.extmul_high_i32x4_u (local.get $x2) (local.get $m1)))
      (local.set $x0 (v128.xor
        (v128.xor (i8x16.shuffle 4 5 6 7 12 13 14 15 20 21 22 23 28 29 30 31 (local.get $r) (local.get $s)) (local.get $x1))
        (i32x4.splat (local.get $k0))))
      (local.set $x2 (v128.xor
        (v128.xor (i8x16.shuffle 4 5 6 7 12 13 14 15 20 21 22 23 28 29 30 31 (local.get $p) (local.get $q)) (local.get $x3))
        (i32x4.splat (local.get $k1))))
      (local.set $x1 (i8x16.shuffle 0 1 2 3 8 9 10 11 16 17 18 19 24 25 26 27 (local.get $r) (local.get $s)))
      (local.set $x3 (i8x16.shuffle 0 1 2 3 8 9 10 11 16 17 18 19 24 25 26 27 (local.get $p) (local.get $q)))
      (local.set $k0 (i32.add (local.get $k0) (i32.const 0x9e3779b9)))
      (local.set $k1 (i32.add (local.get $k1) (i32.const 0xbb67ae85)))
      (br_if $rounds (local.tee $round (i32.sub (local.get $round) (i32.const 1)))))
    (local.set $one (v128.const i32x4 1 1 1 1))
    (local.set $round (i32.const 12))
    (loop $warm
      (local.set $t (i32x4.add (i32x4.add (local.get $x0) (local.get $x1)) (local.get $x3)))
      (local.set $x3 (i32x4.add (local.get $x3) (local.get $one)))
      (local.set $x0 (v128.xor (local.get $x1) (i32x4.shr_u (local.get $x1) (i32.const 9))))
      (local.set $x1 (i32x4.add (local.get $x2) (i32x4.shl (local.get $x2) (i32.const 3))))
      (local.set $x2 (i32x4.add
        (v128.or (i32x4.shl (local.get $x2) (i32.const 21)) (i32x4.shr_u (local.get $x2) (i32.const 11))) (local.get $t)))
      (br_if $warm (local.tee $round (i32.sub (local.get $round) (i32.const 1)))))
    (v128.store (i32.const 8256) (local.get $x0))
    (v128.store (i32.const 8272) (local.get $x1))
    (v128.store (i32.const 8288) (local.get $x2))
    (v128.store (i32.const 8304) (local.get $x3)))

  ;; Writes offset + scale·u to $out for $count uniforms u, made up to a multiple of four, of the lanes last opened.
  (func (export "uniforms") (param $out i32) (param $count i32) (param $offset f64) (param $scale f64)
    (local $a v128) (local $b v128) (local $c v128) (local $d v128) (local $high v128) (local $low v128)
    (local $one v128) (local $end i32) (local $exponent v128) (local $nearOne v128) (local $from v128) (local $by v128)
    (local.set $a (v128.load (i32.const 8256)))
    (local.set $b (v128.load (i32.const 8272)))
    (local.set $c (v128.load (i32.const 8288)))
    (local.set $d (v128.load (i32.const 8304)))
    (local.set $one (v128.const i32x4 1 1 1 1))
    ;; Side by side the two words are 64 bits, of which the upper 52 are n. As the fraction of a double they give
    ;; 1 + n·2^-52; less 1 - 2^-53 that is (n + 1/2)·2^-52, without rounding.
    (local.set $exponent (v128.const i64x2 0x3ff0000000000000 0x3ff0000000000000))
    (local.set $nearOne (v128.const f64x2 0x1.fffffffffffffp-1 0x1.fffffffffffffp-1))
    (local.set $from (f64x2.splat (local.get $offset)))
    (local.set $by (f64x2.splat (local.get $scale)))
    (local.set $end (i32.add (local.get $out) (i32.shl (local.get $count) (i32.const 3))))
    (loop $fill
      (local.set $high (i32x4.add (i32x4.add (local.get $a) (local.get $b)) (local.get $d)))
      (local.set $d (i32x4.add (local.get $d) (local.get $one)))
      (local.set $a (v128.xor (local.get $b) (i32x4.shr_u (local.get $b) (i32.const 9))))
      (local.set $b (i32x4.add (local.get $c) (i32x4.shl (local.get $c) (i32.const 3))))
      (local.set $c (i32x4.add
        (v128.or (i32x4.shl (local.get $c) (i32.const 21)) (i32x4.shr_u (local.get $c) (i32.const 11))) (local.get $high)))
      (local.set $low (i32x4.add (i32x4.add (local.get $a) (local.get $b)) (local.get $d)))
      (local.set $d (i32x4.add (local.get $d) (local.get $one)))
      (local.set $a (v128.xor (local.get $b) (i32x4.shr_u (local.get $b) (i32.const 9))))
      (local.set $b (i32x4.add (local.get $c) (i32x4.shl (local.get $c) (i32.const 3))))
      (local.set $c (i32x4.add
        (v128.or (i32x4.shl (local.get $c) (i32.const 21)) (i32x4.shr_u (local.get $c) (i32.const 11))) (local.get $low)))
      (v128.store (local.get $out) (f64x2.add (local.get $from) (f64x2.mul (local.get $by) (f64x2.sub
        (v128.or
          (i64x2.shr_u (i8x16.shuffle 0 1 2 3 16 17 18 19 4 5 6 7 20 21 22 23 (local.get $low) (local.get $high)) (i32.const 12))
          (local.get $exponent))
        (local.get $nearOne)))))
      (v128.store offset=16 (local.get $out) (f64x2.add (local.get $from) (f64x2.mul (local.get $by) (f64x2.sub
        (v128.or
          (i64x2.shr_u (i8x16.shuffle 8 9 10 11 24 25 26 27 12 13 14 15 28 29 30 31 (local.get $low) (local.get $high)) (i32.const 12))
          (local.get $exponent))
        (local.get $nearOne)))))
      (br_if $fill (i32.lt_u (local.tee $out (i32.add (local.get $out) (i32.const 32))) (local.get $end)))))

  ;; Notes a draw outside its layer's inner box at $note, and moves on where it is one.
  (func $note (param $note i32) (param $inside i32) (param $index i32) (param $layer i32) (param $x f64) (result i32)
    (i32.store (local.get $note) (local.get $index))
    (i32.store offset=4 (local.get $note) (local.get $layer))
    (f64.store offset=8 (local.get $note) (local.get $x))
    (i32.add (local.get $note) (i32.shl (i32.eqz (local.get $inside)) (i32.const 4))))

  ;; Writes offset + scale·z to $out for $count standard normals z as far as each lies in its layer's inner box, and
  ;; notes the others. Returns how many it noted.
  (func (export "normals") (param $out i32) (param $count i32) (param $offset f64) (param $scale f64) (result i32)
    (local $a v128) (local $b v128) (local $c v128) (local $d v128) (local $high v128) (local $low v128) (local $layer v128)
    (local $one v128) (local $start i32) (local $end i32) (local $from v128) (local $by v128) (local $exponent v128) (local $middle v128) (local $half v128)
    (local $p v128) (local $q v128) (local $x v128) (local $y v128) (local $xIn v128) (local $yIn v128) (local $note i32) (local $index i32)
    (local.set $a (v128.load (i32.const 8256)))
    (local.set $b (v128.load (i32.const 8272)))
    (local.set $c (v128.load (i32.const 8288)))
    (local.set $d (v128.load (i32.const 8304)))
    (local.set $one (v128.const i32x4 1 1 1 1))
    ;; As in $uniforms: 1 + n·2^-52 less 3/2, and half a cell more, is a position on (-1/2, 1/2), without rounding.
    (local.set $exponent (v128.const i64x2 0x3ff0000000000000 0x3ff0000000000000))
    (local.set $middle (v128.const f64x2 1.5 1.5))
    (local.set $half (v128.const f64x2 0x1p-53 0x1p-53))
    (local.set $from (f64x2.splat (local.get $offset)))
    (local.set $by (f64x2.splat (local.get $scale)))
    (local.set $note (i32.const 8320))
    (local.set $start (local.get $out))
    (local.set $end (i32.add (local.get $out) (i32.shl (local.get $count) (i32.const 3))))
    (loop $fill
      (local.set $high (i32x4.add (i32x4.add (local.get $a) (local.get $b)) (local.get $d)))
      (local.set $d (i32x4.add (local.get $d) (local.get $one)))
      (local.set $a (v128.xor (local.get $b) (i32x4.shr_u (local.get $b) (i32.const 9))))
      (local.set $b (i32x4.add (local.get $c) (i32x4.shl (local.get $c) (i32.const 3))))
      (local.set $c (i32x4.add
        (v128.or (i32x4.shl (local.get $c) (i32.const 21)) (i32x4.shr_u (local.get $c) (i32.const 11))) (local.get $high)))
      (local.set $low (i32x4.add (i32x4.add (local.get $a) (local.get $b)) (local.get $d)))
      (local.set $d (i32x4.add (local.get $d) (local.get $one)))
      (local.set $a (v128.xor (local.get $b) (i32x4.shr_u (local.get $b) (i32.const 9))))
      (local.set $b (i32x4.add (local.get $c) (i32x4.shl (local.get $c) (i32.const 3))))
      (local.set $c (i32x4.add
        (v128.or (i32x4.shl (local.get $c) (i32.const 21)) (i32x4.shr_u (local.get $c) (i32.const 11))) (local.get $low)))
      ;; The lowest ten bits of the second word choose the layer; the upper 52 bits of both give the position in it.
      (local.set $layer (i32x4.shl (v128.and (local.get $low) (v128.const i32x4 1023 1023 1023 1023)) (i32.const 3)))
      ;; Doubled edges of a layer and of the next lie side by side: one load brings both.
      (local.set $p (v128.load align=8 (i32x4.extract_lane 0 (local.get $layer))))
      (local.set $q (v128.load align=8 (i32x4.extract_lane 1 (local.get $layer))))
      (local.set $x (f64x2.mul
        (f64x2.add
          (f64x2.sub
            (v128.or
              (i64x2.shr_u (i8x16.shuffle 0 1 2 3 16 17 18 19 4 5 6 7 20 21 22 23 (local.get $low) (local.get $high)) (i32.const 12))
              (local.get $exponent))
            (local.get $middle))
          (local.get $half))
        (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $p) (local.get $q))))
      (local.set $xIn (f64x2.lt (f64x2.abs (f64x2.add (local.get $x) (local.get $x)))
        (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $p) (local.get $q))))
      (local.set $p (v128.load align=8 (i32x4.extract_lane 2 (local.get $layer))))
      (local.set $q (v128.load align=8 (i32x4.extract_lane 3 (local.get $layer))))
      (local.set $y (f64x2.mul
        (f64x2.add
          (f64x2.sub
            (v128.or
              (i64x2.shr_u (i8x16.shuffle 8 9 10 11 24 25 26 27 12 13 14 15 28 29 30 31 (local.get $low) (local.get $high)) (i32.const 12))
              (local.get $exponent))
            (local.get $middle))
          (local.get $half))
        (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $p) (local.get $q))))
      (local.set $yIn (f64x2.lt (f64x2.abs (f64x2.add (local.get $y) (local.get $y)))
        (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $p) (local.get $q))))
      (v128.store (local.get $out) (f64x2.add (local.get $from) (f64x2.mul (local.get $by) (local.get $x))))
      (v128.store offset=16 (local.get $out) (f64x2.add (local.get $from) (f64x2.mul (local.get $by) (local.get $y))))
      (if (i32.eqz (i64x2.all_true (v128.and (local.get $xIn) (local.get $yIn))))
        (then
          (local.set $layer (i32x4.shr_u (local.get $layer) (i32.const 3)))
          (local.set $index (i32.shr_u (i32.sub (local.get $out) (local.get $start)) (i32.const 3)))
          (local.set $note (call $note (local.get $note) (i32x4.extract_lane 0 (local.get $xIn))
            (local.get $index) (i32x4.extract_lane 0 (local.get $layer)) (f64x2.extract_lane 0 (local.get $x))))
          (local.set $note (call $note (local.get $note) (i32x4.extract_lane 2 (local.get $xIn))
            (i32.add (local.get $index) (i32.const 1)) (i32x4.extract_lane 1 (local.get $layer)) (f64x2.extract_lane 1 (local.get $x))))
          (local.set $note (call $note (local.get $note) (i32x4.extract_lane 0 (local.get $yIn))
            (i32.add (local.get $index) (i32.const 2)) (i32x4.extract_lane 2 (local.get $layer)) (f64x2.extract_lane 0 (local.get $y))))
          (local.set $note (call $note (local.get $note) (i32x4.extract_lane 2 (local.get $yIn))
            (i32.add (local.get $index) (i32.const 3)) (i32x4.extract_lane 3 (local.get $layer)) (f64x2.extract_lane 1 (local.get $y))))))
      (br_if $fill (i32.lt_u (local.tee $out (i32.add (local.get $out) (i32.const 32))) (local.get $end))))
    (i32.shr_u (i32.sub (local.get $note) (i32.const 8320)) (i32.const 4)))

  ;; Writes the sums of columns' numbers, each less its mean and times its coefficient, to $out: of $count trials, made up to
  ;; a multiple of eight. A term is 24 bytes: address of its column (word), coefficient, mean (doubles, from byte 8 on).
  ;; Terms from $terms to below $away are those with a mean other than 0; they are added first, then those to below $last.
  (func (export "weightedSum") (param $out i32) (param $terms i32) (param $away i32) (param $last i32) (param $count i32)
    (local $end i32) (local $offset i32) (local $term i32) (local $at i32) (local $by v128) (local $mean v128)
    (local $s v128) (local $t v128) (local $u v128) (local $v v128)
    (local.set $end (i32.shl (local.get $count) (i32.const 3)))
    (loop $eights
      (local.set $s (v128.const f64x2 0 0))
      (local.set $t (v128.const f64x2 0 0))
      (local.set $u (v128.const f64x2 0 0))
      (local.set $v (v128.const f64x2 0 0))
      (local.set $term (local.get $terms))
      (block $centred
        (br_if $centred (i32.ge_u (local.get $term) (local.get $away)))
        (loop $add
          (local.set $at (i32.add (i32.load (local.get $term)) (local.get $offset)))
          (local.set $by (v128.load64_splat offset=8 (local.get $term)))
          (local.set $mean (v128.load64_splat offset=16 (local.get $term)))
          (local.set $s (f64x2.add (local.get $s) (f64x2.mul (local.get $by) (f64x2.sub (v128.load align=8 (local.get $at)) (local.get $mean)))))
          (local.set $t (f64x2.add (local.get $t) (f64x2.mul (local.get $by) (f64x2.sub (v128.load offset=16 align=8 (local.get $at)) (local.get $mean)))))
          (local.set $u (f64x2.add (local.get $u) (f64x2.mul (local.get $by) (f64x2.sub (v128.load offset=32 align=8 (local.get $at)) (local.get $mean)))))
          (local.set $v (f64x2.add (local.get $v) (f64x2.mul (local.get $by) (f64x2.sub (v128.load offset=48 align=8 (local.get $at)) (local.get $mean)))))
          (br_if $add (i32.lt_u (local.tee $term (i32.add (local.get $term) (i32.const 24))) (local.get $away)))))
      (block $added
        (br_if $added (i32.ge_u (local.get $term) (local.get $last)))
        (loop $add
          (local.set $at (i32.add (i32.load (local.get $term)) (local.get $offset)))
          (local.set $by (v128.load64_splat offset=8 (local.get $term)))
          (local.set $s (f64x2.add (local.get $s) (f64x2.mul (local.get $by) (v128.load align=8 (local.get $at)))))
          (local.set $t (f64x2.add (local.get $t) (f64x2.mul (local.get $by) (v128.load offset=16 align=8 (local.get $at)))))
          (local.set $u (f64x2.add (local.get $u) (f64x2.mul (local.get $by) (v128.load offset=32 align=8 (local.get $at)))))
          (local.set $v (f64x2.add (local.get $v) (f64x2.mul (local.get $by) (v128.load offset=48 align=8 (local.get $at)))))
          (br_if $add (i32.lt_u (local.tee $term (i32.add (local.get $term) (i32.const 24))) (local.get $last)))))
      (local.set $at (i32.add (local.get $out) (local.get $offset)))
      (v128.store align=8 (local.get $at) (local.get $s))
      (v128.store offset=16 align=8 (local.get $at) (local.get $t))
      (v128.store offset=32 align=8 (local.get $at) (local.get $u))
      (v128.store offset=48 align=8 (local.get $at) (local.get $v))
      (br_if $eights (i32.lt_u (local.tee $offset (i32.add (local.get $offset) (i32.const 64))) (local.get $end)))))

  ;; Writes to the six doubles at $sums those of z, z^2, z^4, z*v, z^2*v and z^2*v^2 of $count trials, an even number, in the
  ;; order of the trials: z as it stands at $z, v = (value - origin)*scale of the values at $values. Writes the number of each trial with
  ;; (z - middleZ)^2 > inZ or (v - middleV)^2 > inV as a word at $notes, and returns the address after the last.
  (func (export "pairedSums") (param $z i32) (param $values i32) (param $count i32) (param $sums i32) (param $notes i32)
    (param $origin f64) (param $scale f64) (param $middleZ f64) (param $inZ f64) (param $middleV f64) (param $inV f64)
    (result i32)
    (local $trial i32) (local $from v128) (local $by v128) (local $mz v128) (local $iz v128) (local $mv v128) (local $iv v128)
    (local $x v128) (local $y v128) (local $zz v128) (local $zzv v128) (local $a v128) (local $b v128) (local $s v128) (local $t v128) (local $u v128)
    (local $away i32)
    (local.set $from (f64x2.splat (local.get $origin)))
    (local.set $by (f64x2.splat (local.get $scale)))
    (local.set $mz (f64x2.splat (local.get $middleZ)))
    (local.set $iz (f64x2.splat (local.get $inZ)))
    (local.set $mv (f64x2.splat (local.get $middleV)))
    (local.set $iv (f64x2.splat (local.get $inV)))
    ;; A register holds two sums: every sum has its trials one after the other.
    (block $none
      (br_if $none (i32.ge_u (local.get $trial) (local.get $count)))
      (loop $pairs
        (local.set $x (v128.load align=8 (local.get $z)))
        (local.set $y (f64x2.mul (f64x2.sub (v128.load align=8 (local.get $values)) (local.get $from)) (local.get $by)))
        (local.set $a (f64x2.sub (local.get $x) (local.get $mz)))
        (local.set $b (f64x2.sub (local.get $y) (local.get $mv)))
        (local.set $away (i64x2.bitmask (v128.or
          (f64x2.gt (f64x2.mul (local.get $a) (local.get $a)) (local.get $iz))
          (f64x2.gt (f64x2.mul (local.get $b) (local.get $b)) (local.get $iv)))))
        (local.set $zz (f64x2.mul (local.get $x) (local.get $x)))
        (local.set $zzv (f64x2.mul (local.get $zz) (local.get $y)))
        (local.set $s (f64x2.add (f64x2.add (local.get $s)
          (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $x) (local.get $zz)))
          (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $x) (local.get $zz))))
        (local.set $a (f64x2.mul (local.get $zz) (local.get $zz)))
        (local.set $b (f64x2.mul (local.get $x) (local.get $y)))
        (local.set $t (f64x2.add (f64x2.add (local.get $t)
          (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $a) (local.get $b)))
          (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $a) (local.get $b))))
        (local.set $a (f64x2.mul (local.get $zzv) (local.get $y)))
        (local.set $u (f64x2.add (f64x2.add (local.get $u)
          (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $zzv) (local.get $a)))
          (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $zzv) (local.get $a))))
        ;; Written in any case; kept where it counts.
        (i32.store (local.get $notes) (local.get $trial))
        (local.set $notes (i32.add (local.get $notes) (i32.shl (i32.and (local.get $away) (i32.const 1)) (i32.const 2))))
        (i32.store (local.get $notes) (i32.add (local.get $trial) (i32.const 1)))
        (local.set $notes (i32.add (local.get $notes) (i32.shl (i32.shr_u (local.get $away) (i32.const 1)) (i32.const 2))))
        (local.set $z (i32.add (local.get $z) (i32.const 16)))
        (local.set $values (i32.add (local.get $values) (i32.const 16)))
        (br_if $pairs (i32.lt_u (local.tee $trial (i32.add (local.get $trial) (i32.const 2))) (local.get $count)))))
    (v128.store align=8 (local.get $sums) (local.get $s))
    (v128.store offset=16 align=8 (local.get $sums) (local.get $t))
    (v128.store offset=32 align=8 (local.get $sums) (local.get $u))
    (local.get $notes))

  ;; Writes the sums about one endpoint of the trials from the words from $notes to below $last; $kept is room for as many
  ;; words. z and v as before, both with the $sign (it is in $scale already). At $sums: of the parts a of z's window and b of
  ;; v's below the endpoint, the sums of a, b, a^2, b^2, a*b and (b - a)^4, six doubles, and the number of v between $bottomV
  ;; and $topV. Adds to $cells, 16 bytes a cell: the number of z in it and their distances from its lower edge in cells;
  ;; before the first cell those below it, behind the last, number $most, those above.
  (func (export "pairedEnd") (param $notes i32) (param $last i32) (param $kept i32) (param $z i32) (param $values i32) (param $sums i32) (param $cells i32)
    (param $most f64) (param $sign f64) (param $origin f64) (param $scale f64) (param $topOfZ f64) (param $widthOfZ f64) (param $topOfV f64) (param $widthOfV f64)
    (param $cellsFrom f64) (param $density f64) (param $bottomV f64) (param $topV f64)
    (local $away v128) (local $by v128) (local $top v128) (local $width v128) (local $one v128) (local $zero v128)
    (local $at i32) (local $to i32) (local $x v128) (local $y v128) (local $s v128) (local $t v128) (local $u v128) (local $inside i32)
    (local $place f64) (local $cell f64) (local $v f64)
    (local.set $to (local.get $kept))
    (block $noted
      (br_if $noted (i32.ge_u (local.get $notes) (local.get $last)))
      ;; Most trials about the other endpoint count for nothing here.
      (loop $trials
        (local.set $at (i32.shl (i32.load (local.get $notes)) (i32.const 3)))
        (i32.store (local.get $to) (local.get $at))
        (local.set $place (f64.mul
          (f64.sub (f64.mul (f64.load (i32.add (local.get $z) (local.get $at))) (local.get $sign)) (local.get $cellsFrom))
          (local.get $density)))
        (local.set $v (f64.mul (f64.sub (f64.load (i32.add (local.get $values) (local.get $at))) (local.get $origin)) (local.get $scale)))
        (local.set $to (i32.add (local.get $to) (i32.shl
          (i32.or (f64.lt (local.get $place) (local.get $most)) (f64.lt (local.get $v) (local.get $topV))) (i32.const 2))))
        (br_if $trials (i32.lt_u (local.tee $notes (i32.add (local.get $notes) (i32.const 4))) (local.get $last)))))
    (local.set $away (f64x2.replace_lane 1 (v128.const f64x2 0 0) (local.get $origin)))
    (local.set $by (f64x2.replace_lane 1 (f64x2.splat (local.get $sign)) (local.get $scale)))
    (local.set $top (f64x2.replace_lane 1 (f64x2.splat (local.get $topOfZ)) (local.get $topOfV)))
    (local.set $width (f64x2.replace_lane 1 (f64x2.splat (local.get $widthOfZ)) (local.get $widthOfV)))
    (local.set $one (v128.const f64x2 1 1))
    (block $none
      (br_if $none (i32.ge_u (local.get $kept) (local.get $to)))
      (loop $trials
        (local.set $at (i32.load (local.get $kept)))
        (local.set $x (f64x2.mul
          (f64x2.sub
            (v128.load64_lane 1 (i32.add (local.get $values) (local.get $at)) (v128.load64_zero (i32.add (local.get $z) (local.get $at))))
            (local.get $away))
          (local.get $by)))
        (local.set $v (f64x2.extract_lane 1 (local.get $x)))
        (local.set $inside (i32.add (local.get $inside)
          (i32.and (f64.gt (local.get $v) (local.get $bottomV)) (f64.lt (local.get $v) (local.get $topV)))))
        (local.set $place (f64.mul (f64.sub (f64x2.extract_lane 0 (local.get $x)) (local.get $cellsFrom)) (local.get $density)))
        (local.set $cell (f64.floor (local.get $place)))
        ;; The last bits of a whole number beside 1.5*2^52 are that number.
        (local.set $at (i32.add (local.get $cells) (i32.shl (i32.wrap_i64 (i64.reinterpret_f64 (f64.add (f64.const 0x1.8p52)
          (f64x2.extract_lane 0 (f64x2.pmin (f64x2.pmax (f64x2.splat (local.get $cell)) (v128.const f64x2 -1 -1)) (f64x2.splat (local.get $most))))))) (i32.const 4))))
        (v128.store align=8 (local.get $at) (f64x2.add (v128.load align=8 (local.get $at))
          (f64x2.replace_lane 1 (local.get $one) (f64.sub (local.get $place) (local.get $cell)))))
        (local.set $x (f64x2.pmin (local.get $one) (f64x2.pmax (local.get $zero)
          (f64x2.div (f64x2.sub (local.get $top) (local.get $x)) (local.get $width)))))
        (local.set $s (f64x2.add (local.get $s) (local.get $x)))
        (local.set $t (f64x2.add (local.get $t) (f64x2.mul (local.get $x) (local.get $x))))
        ;; b, a beside a, b: their product, and the square of their difference.
        (local.set $y (i8x16.shuffle 8 9 10 11 12 13 14 15 0 1 2 3 4 5 6 7 (local.get $x) (local.get $x)))
        (local.set $x (f64x2.mul
          (i8x16.shuffle 0 1 2 3 4 5 6 7 24 25 26 27 28 29 30 31 (local.get $y) (f64x2.sub (local.get $y) (local.get $x)))
          (i8x16.shuffle 0 1 2 3 4 5 6 7 24 25 26 27 28 29 30 31 (local.get $x) (f64x2.sub (local.get $y) (local.get $x)))))
        (local.set $u (f64x2.add (local.get $u) (f64x2.mul (local.get $x)
          (f64x2.replace_lane 0 (local.get $x) (f64.const 1)))))
        (br_if $trials (i32.lt_u (local.tee $kept (i32.add (local.get $kept) (i32.const 4))) (local.get $to)))))
    (v128.store align=8 (local.get $sums) (local.get $s))
    (v128.store offset=16 align=8 (local.get $sums) (local.get $t))
    (v128.store offset=32 align=8 (local.get $sums) (local.get $u))
    (f64.store offset=48 (local.get $sums) (f64.convert_i32_u (local.get $inside))))
  ;; Gamma variates of Marsaglia and Tsang in place of the normals at $x, with the uniforms at $u, where the quick test takes
  ;; them; others stay, and their numbers are noted. Returns how many.
  (func (export "gammas") (param $x i32) (param $u i32) (param $count i32) (param $c f64) (param $d f64) (result i32)
    (local $end i32) (local $note i32) (local $taken i32) (local $index i32) (local $normal v128) (local $root v128)
    (local $square v128) (local $quick v128) (local $one v128) (local $by v128) (local $zero v128) (local $cs v128) (local $ds v128)
    (local.set $one (f64x2.splat (f64.const 1)))
    (local.set $by (f64x2.splat (f64.const 0.0331)))
    (local.set $cs (f64x2.splat (local.get $c)))
    (local.set $ds (f64x2.splat (local.get $d)))
    (local.set $note (i32.const 8320))
    (loop $pairs
      (local.set $normal (v128.load align=8 (local.get $x)))
      (local.set $root (f64x2.add (local.get $one) (f64x2.mul (local.get $cs) (local.get $normal))))
      (local.set $square (f64x2.mul (local.get $normal) (local.get $normal)))
      (local.set $quick (v128.and
        (f64x2.gt (local.get $root) (local.get $zero))
        (f64x2.lt (v128.load align=8 (local.get $u)) (f64x2.sub (local.get $one)
          (f64x2.mul (f64x2.mul (local.get $by) (local.get $square)) (local.get $square))))))
      (v128.store align=8 (local.get $x) (v128.bitselect
        (f64x2.mul (local.get $ds) (f64x2.mul (f64x2.mul (local.get $root) (local.get $root)) (local.get $root)))
        (local.get $normal) (local.get $quick)))
      (local.set $taken (i64x2.bitmask (local.get $quick)))
      (block $both
        (br_if $both (i32.eq (local.get $taken) (i32.const 3)))
        (i32.store (local.get $note) (local.get $index))
        (local.set $note (i32.add (local.get $note) (i32.shl (i32.and (i32.xor (local.get $taken) (i32.const 3)) (i32.const 1)) (i32.const 4))))
        (i32.store (local.get $note) (i32.add (local.get $index) (i32.const 1)))
        (local.set $note (i32.add (local.get $note) (i32.shl (i32.and (i32.xor (local.get $taken) (i32.const 3)) (i32.const 2)) (i32.const 3)))))
      (local.set $x (i32.add (local.get $x) (i32.const 16)))
      (local.set $u (i32.add (local.get $u) (i32.const 16)))
      (br_if $pairs (i32.lt_u (local.tee $index (i32.add (local.get $index) (i32.const 2))) (local.get $count))))
    (i32.shr_u (i32.sub (local.get $note) (i32.const 8320)) (i32.const 4)))

  ;; Makes t variates of the normals at $out and gamma variates at $gammas: location + scale*normal*sqrt(freedom/(2*gamma)).
  (func (export "students") (param $out i32) (param $gammas i32) (param $count i32) (param $location f64) (param $scale f64) (param $freedom f64)
    (local $end i32) (local $gamma v128)
    (local.set $end (i32.add (local.get $out) (i32.shl (local.get $count) (i32.const 3))))
    (loop $pairs
      (local.set $gamma (v128.load align=8 (local.get $gammas)))
      (v128.store align=8 (local.get $out) (f64x2.add (f64x2.splat (local.get $location)) (f64x2.mul
        (f64x2.mul (f64x2.splat (local.get $scale)) (v128.load align=8 (local.get $out)))
        (f64x2.sqrt (f64x2.div (f64x2.splat (local.get $freedom)) (f64x2.add (local.get $gamma) (local.get $gamma)))))))
      (local.set $gammas (i32.add (local.get $gammas) (i32.const 16)))
      (br_if $pairs (i32.lt_u (local.tee $out (i32.add (local.get $out) (i32.const 16))) (local.get $end))))))
