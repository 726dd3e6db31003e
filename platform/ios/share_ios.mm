// SPDX-License-Identifier: GPL-3.0-or-later
// Never built here.
#include "share/share_file.h"

#import <UIKit/UIKit.h>

namespace rillmark {

namespace {

UIViewController* front_controller() {
    for (UIScene* scene in UIApplication.sharedApplication.connectedScenes) {
        if (scene.activationState != UISceneActivationStateForegroundActive || ![scene isKindOfClass:[UIWindowScene class]])
            continue;
        for (UIWindow* window in static_cast<UIWindowScene*>(scene).windows) {
            if (!window.isKeyWindow)
                continue;
            UIViewController* front = window.rootViewController;
            while (front.presentedViewController != nil)
                front = front.presentedViewController;
            return front;
        }
    }
    return nil;
}

} // namespace

bool can_share_files() {
    return true;
}

Expected<void> share_file(const QString& file, const QString& title) {
    UIViewController* front = front_controller();
    if (front == nil)
        return refusal("exchange.share_failed", {}, {{"detail", std::string("no window")}});
    NSURL* url = [NSURL fileURLWithPath:file.toNSString()];
    UIActivityViewController* sheet = [[UIActivityViewController alloc] initWithActivityItems:@[ url ] applicationActivities:nil];
    [sheet setValue:title.toNSString() forKey:@"subject"];
    // on a tablet the sheet hangs at a point: the middle of the window
    sheet.popoverPresentationController.sourceView = front.view;
    sheet.popoverPresentationController.sourceRect =
        CGRectMake(CGRectGetMidX(front.view.bounds), CGRectGetMidY(front.view.bounds), 1.0, 1.0);
    [front presentViewController:sheet animated:YES completion:nil];
    return {};
}

} // namespace rillmark
