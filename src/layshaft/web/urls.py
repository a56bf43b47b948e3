"""Which page answers to which address."""

from __future__ import annotations

from django.urls import path

from layshaft.web import assembly, bench, books, fit, people, press, price, reading, shop_page, take_in, where, who

urlpatterns = [
    path("", where.where, name="where"),
    path("who", who.who, name="who"),
    path("leave", who.leave, name="leave"),
    path("first/<str:token>", who.first, name="first"),
    path("shop", shop_page.shop, name="shop"),
    path("shop/settings", shop_page.settings, name="settings"),
    path("shop/settings/few", shop_page.few, name="settings few"),
    path("shop/people", people.people, name="people"),
    path("shop/people/<str:key>", people.change, name="person"),
    path("shop/books", books.books, name="books"),
    path("shop/books/add", books.add, name="add book"),
    path("shop/books/<int:revision>.yaml", books.file, name="book file"),
    path("jobs/new", take_in.new_job, name="new job"),
    path("jobs/<str:number>/", take_in.job, name="job"),
    path("jobs/<str:number>/place", take_in.place, name="place"),
    path("jobs/<str:number>/settle/<int:entry>", take_in.settle, name="settle"),
    path("jobs/<str:number>/bench", bench.bench, name="bench"),
    path("jobs/<str:number>/bench/done", bench.done, name="bench done"),
    path("jobs/<str:number>/bench/may", bench.may_i, name="bench may"),
    path("jobs/<str:number>/bench/went", bench.went, name="bench went"),
    path("jobs/<str:number>/assembly", assembly.assembly, name="assembly"),
    path("jobs/<str:number>/assembly/done", assembly.assembled, name="assembly done"),
    path("jobs/<str:number>/assembly/proved", assembly.proved, name="assembly proved"),
    path("jobs/<str:number>/assembly/apart", assembly.apart, name="assembly apart"),
    path("jobs/<str:number>/release", assembly.release, name="release"),
    path("jobs/<str:number>/press", press.press, name="press"),
    path("jobs/<str:number>/press/<str:load>/<int:way>", press.press_way, name="press way"),
    path("jobs/<str:number>/fit", fit.fit, name="fit"),
    path("jobs/<str:number>/fit/named", fit.named, name="fit named"),
    path("jobs/<str:number>/fit/given-up", fit.given_up, name="fit given up"),
    path("jobs/<str:number>/price", price.price, name="price"),
    path("jobs/<str:number>/price/yes", price.yes, name="price yes"),
    path("jobs/<str:number>/price/word", price.word, name="price word"),
    path("jobs/<str:number>/readings", reading.readings, name="readings"),
    path("jobs/<str:number>/parts/<str:part>", reading.part, name="part"),
    path("jobs/<str:number>/parts/<str:part>/look", reading.look, name="look"),
    path("jobs/<str:number>/parts/<str:part>/reading", reading.reading, name="reading"),
]
