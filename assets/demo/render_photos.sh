#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Draws the four photos of the demo creek and their thumbnails into this folder. Needs ImageMagick 6. The pictures are kept
# in the repository; run this only to change them.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"

# hills LIGHT DARK: two ridges behind the scene.
hills() {
    printf "fill '%s' path 'M 0,230 C 120,120 210,150 300,200 C 400,90 520,110 610,190 C 690,130 760,150 800,180 L 800,420 L 0,420 Z' " "$1"
    printf "fill '%s' path 'M 0,300 C 100,230 190,250 280,290 C 390,220 480,240 560,300 C 660,250 730,260 800,290 L 800,460 L 0,460 Z' " "$2"
}

# tree X Y SIZE: a conifer standing at X,Y.
tree() {
    local x=$1 y=$2 s=$3
    printf "fill '#5b4632' rectangle %d,%d %d,%d " $((x - s / 14)) $((y - s / 5)) $((x + s / 14)) "$y"
    printf "fill '#2f5a3a' polygon %d,%d %d,%d %d,%d " "$x" $((y - s)) $((x - s / 3)) $((y - s / 6)) $((x + s / 3)) $((y - s / 6))
    printf "fill '#3a6b45' polygon %d,%d %d,%d %d,%d " "$x" $((y - s)) $((x - s / 4)) $((y - s / 2)) $((x + s / 9)) $((y - s / 2))
}

# stone X Y WIDTH HEIGHT: a boulder with light on its shoulder.
stone() {
    printf "fill '#6f6d69' ellipse %d,%d %d,%d 0,360 " "$1" "$2" "$3" "$4"
    printf "fill '#92908a' ellipse %d,%d %d,%d 180,320 " $(($1 - $3 / 8)) $(($2 - $4 / 8)) $(($3 * 3 / 4)) $(($4 * 3 / 4))
}

# photo NAME DRAWING: grain and a soft lens make it look taken, not drawn.
photo() {
    convert -seed 7 -size 800x600 gradient:'#8fb7da-#eef3ee' -draw "$2" \
        -attenuate 0.12 +noise Gaussian -blur 0x0.6 -strip -quality 72 "$1.jpg"
    convert "$1.jpg" -resize 240x180 -strip -quality 70 "$1.small.jpg"
}

intake=$(
    hills '#9bb3b0' '#6f9377'
    for t in '70 400 190' '150 380 140' '660 390 180' '735 410 220' '590 370 110'; do tree $t; done
    printf "fill '#71895a' path 'M 0,390 C 200,350 330,380 400,372 C 520,360 650,370 800,390 L 800,600 L 0,600 Z' "
    printf "fill '#7fa8b8' path 'M 360,374 C 330,420 250,450 240,470 L 560,470 C 540,440 460,420 430,372 Z' "
    printf "fill '#a9cbd3' path 'M 372,380 C 360,410 310,440 300,462 L 360,462 C 380,430 396,400 398,378 Z' "
    printf "fill '#8a6a45' rectangle 205,466 600,490 fill '#6d5236' rectangle 205,484 600,490 fill '#d9ecf0' rectangle 350,466 452,474 "
    printf "fill '#dcebee' path 'M 352,474 L 450,474 L 470,520 L 330,520 Z' "
    printf "fill '#6f9cad' path 'M 240,515 C 320,500 480,500 560,515 C 640,550 660,580 670,600 L 130,600 C 150,570 180,540 240,515 Z' "
    printf "stroke '#cfe3e6' stroke-width 3 fill none path 'M 260,545 C 320,535 360,548 410,540' path 'M 360,570 C 430,560 500,575 560,566' stroke none "
    for s in '200 480 52 34' '150 520 70 40' '610 486 60 36' '670 535 80 46' '300 560 34 18' '520 545 40 20' '90 575 60 30'; do stone $s; done
)
photo intake "$intake"

gauging=$(
    hills '#a5b8b4' '#7d9c7c'
    for t in '60 360 170' '700 350 150' '760 380 210'; do tree $t; done
    printf "fill '#7b8f5d' path 'M 0,350 L 800,330 L 800,600 L 0,600 Z' "
    printf "fill '#77716a' path 'M 0,380 L 170,372 L 240,600 L 0,600 Z' fill '#8d867d' path 'M 0,380 L 170,372 L 185,420 L 0,440 Z' "
    printf "fill '#6d9bad' path 'M 170,372 L 470,352 C 560,420 640,520 690,600 L 240,600 Z' "
    printf "stroke '#bcd8de' stroke-width 3 fill none path 'M 230,430 C 320,420 380,434 470,424' path 'M 260,500 C 370,488 450,506 560,494' path 'M 290,560 C 400,548 500,566 610,552' stroke none "
    printf "stroke '#f2c230' stroke-width 5 line 120,442 640,428 stroke none "
    for x in 180 240 300 360 420 480 540 600; do
        printf "fill '#303030' rectangle %d,%d %d,%d " "$x" $((442 - (x - 120) * 14 / 520)) $((x + 3)) $((450 - (x - 120) * 14 / 520))
    done
    printf "fill '#e8e4da' rectangle 372,300 382,500 fill '#c2452d' rectangle 372,330 382,350 rectangle 372,380 382,400 rectangle 372,430 382,450 "
    printf "fill '#3a3f45' ellipse 377,492 26,9 0,360 fill '#d8dadc' ellipse 352,492 6,14 0,360 "
    printf "fill '#8a6a45' rectangle 112,420 124,470 rectangle 634,404 646,460 "
    for s in '660 500 60 32' '720 560 70 36' '590 590 44 20' '330 590 30 14'; do stone $s; done
)
photo gauging "$gauging"

powerhouse=$(
    hills '#9db2b4' '#6c8f74'
    for t in '110 390 210' '190 370 150' '560 360 130' '720 400 230'; do tree $t; done
    printf "fill '#76905c' path 'M 0,380 C 240,350 420,390 800,360 L 800,600 L 0,600 Z' "
    printf "fill '#9c7d57' rectangle 330,300 560,440 fill '#7f6444' rectangle 330,300 350,440 rectangle 390,300 394,440 rectangle 450,300 454,440 rectangle 510,300 514,440 "
    printf "fill '#5d666d' polygon 310,305 445,225 580,305 fill '#77828a' polygon 310,305 445,225 455,232 335,305 "
    printf "fill '#3c2f22' rectangle 400,350 460,440 fill '#cfe1e6' rectangle 485,335 535,375 "
    printf "stroke '#2b2b2b' stroke-width 16 fill none path 'M 0,250 C 100,280 200,330 330,405' stroke '#4a4a4a' stroke-width 5 path 'M 0,246 C 100,276 200,326 330,401' stroke none "
    printf "fill '#6f9cad' path 'M 470,440 C 520,470 640,480 800,500 L 800,570 C 640,540 470,500 420,440 Z' "
    printf "stroke '#d5e6e9' stroke-width 3 fill none path 'M 500,462 C 580,485 680,490 790,512' stroke none "
    for s in '400 470 60 30' '610 540 70 34' '720 590 90 36' '250 500 50 26'; do stone $s; done
    printf "stroke '#e8e4da' stroke-width 3 line 375,452 375,395 stroke none fill '#e06b2c' rectangle 368,388 382,402 "
)
photo powerhouse "$powerhouse"

house=$(
    hills '#a8bab8' '#85a27f'
    for t in '60 370 160' '640 350 120' '750 385 220'; do tree $t; done
    printf "fill '#8ea365' path 'M 0,370 C 260,340 520,370 800,350 L 800,600 L 0,600 Z' "
    printf "fill '#e4ddcd' rectangle 200,270 470,400 fill '#cfc6b2' rectangle 200,270 225,400 fill '#e4ddcd' rectangle 470,320 560,400 "
    printf "fill '#8c4a36' polygon 175,275 335,170 495,275 fill '#a4573f' polygon 175,275 335,170 350,180 215,275 fill '#8c4a36' polygon 470,320 470,295 580,330 560,335 "
    printf "fill '#54707f' rectangle 235,300 285,345 rectangle 385,300 435,345 fill '#5b4632' rectangle 315,315 355,400 fill '#b9b2a2' rectangle 410,180 435,225 "
    for x in 40 160 280 400 520 640 760; do
        printf "fill '#6d5236' rectangle %d,%d %d,%d " "$x" $((470 - x / 20)) $((x + 10)) $((560 - x / 20))
    done
    printf "stroke '#8a8378' stroke-width 3 fill none line 0,492 800,452 line 0,522 800,482 stroke none "
    printf "stroke '#d8572a' stroke-width 4 fill none path 'M 0,548 C 260,535 520,520 800,500' stroke none "
    for s in '120 585 50 22' '560 570 60 24'; do stone $s; done
)
photo house "$house"
